// Starts the app. Its files are named on this script's own element, since their names change with
// every build.
const names = document.querySelector("script[data-wasm]").dataset;

try {
  const app = await import(names.app);
  await app.default({ module_or_path: new URL(names.wasm, document.baseURI) });
} catch (error) {
  document.getElementById("start-failed")?.removeAttribute("hidden");
  throw error;
}
