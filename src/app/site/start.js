// Starts the app. Its files are named on this script's own element, since their names change with
// every build.
const names = document.querySelector("script[data-wasm]").dataset;

// Until it is there, the page speaks the phone's language.
const spoken = navigator.languages.find((tag) => /^(en|es)\b/.test(tag)) ?? "en";
document.documentElement.lang = spoken.slice(0, 2);

try {
  // First the page is painted, with its cautions.
  await new Promise((then) => requestAnimationFrame(() => setTimeout(then)));
  const app = await import(names.app);
  await app.default({ module_or_path: new URL(names.wasm, document.baseURI) });
} catch (error) {
  document.getElementById("start-failed")?.removeAttribute("hidden");
  throw error;
}
