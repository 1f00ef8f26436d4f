//! The page itself: one style sheet, a content policy, the name of its build.

use anyhow::Result;

/// What the page may load and run: its own files and nothing else. WebAssembly needs a word of
/// its own.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; \
                      style-src 'self'; img-src 'self'; connect-src 'self'; \
                      manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'";

/// The addresses of a page's style sheets, and the page with one in place of them.
pub(super) fn one_style(
    page: &str,
    address: impl FnOnce(&[String]) -> Result<String>,
) -> Result<String> {
    let (mut kept, mut addresses, mut rest) = (String::new(), Vec::new(), page);
    let mut first = None;
    while let Some(start) = rest.find("<link ") {
        let end = rest[start..].find('>').map_or(rest.len(), |end| start + end + 1);
        let tag = &rest[start..end];
        kept.push_str(&rest[..start]);
        if attribute(tag, "rel") == Some("stylesheet") {
            first.get_or_insert(kept.len());
            addresses.extend(attribute(tag, "href").map(str::to_owned));
        } else {
            kept.push_str(tag);
        }
        rest = &rest[end..];
    }
    kept.push_str(rest);
    if let Some(first) = first {
        let link = format!("<link rel=\"stylesheet\" href=\"{}\">", address(&addresses)?);
        kept.insert_str(first, &link);
    }
    Ok(kept)
}

/// An attribute of a tag, whether or not it is in quotes.
fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    let from = tag.find(&format!(" {name}="))? + name.len() + 2;
    let value = &tag[from..];
    match value.strip_prefix('"') {
        Some(quoted) => quoted.split('"').next(),
        None => value.split([' ', '>']).next(),
    }
}

/// The page with its policy and the name of its build, right after it has named its characters.
pub(super) fn sealed(page: &str, build: &str) -> Option<String> {
    let charset = page.find("charset")?;
    let after = charset + page[charset..].find('>')? + 1;
    let (head, rest) = page.split_at(after);
    Some(format!(
        "{head}<meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">\
         <meta name=\"build\" content=\"{build}\">{rest}"
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn style_sheets_become_one_where_the_first_stood() -> Result<()> {
        let page = "<link rel=icon href=a.svg><link href=./b.css rel=stylesheet>\
                    <link rel=\"stylesheet\" href=\"./c.css\"><p>";
        let joined = one_style(page, |all| {
            assert_eq!(all, ["./b.css", "./c.css"]);
            Ok("d.css".to_owned())
        })?;
        let wanted = "<link rel=icon href=a.svg><link rel=\"stylesheet\" href=\"d.css\"><p>";
        assert_eq!(joined, wanted);
        Ok(())
    }

    #[test]
    fn a_page_without_style_sheets_stays_as_it_is() -> Result<()> {
        let page = "<link rel=icon href=a.svg><p>";
        assert_eq!(one_style(page, |_| unreachable!("there is none"))?, page);
        Ok(())
    }

    #[test]
    fn the_policy_comes_before_anything_is_loaded() {
        let sealed = sealed("<meta charset=utf-8><script src=a.js>", "abc");
        let sealed = sealed.unwrap_or_default();
        assert!(sealed.starts_with("<meta charset=utf-8><meta http-equiv="), "{sealed}");
        assert!(sealed.contains("name=\"build\" content=\"abc\"><script"), "{sealed}");
        assert!(!sealed.contains("unsafe-inline") && !sealed.contains("'unsafe-eval'"));
        assert_eq!(super::sealed("<p>", "abc"), None);
    }
}
