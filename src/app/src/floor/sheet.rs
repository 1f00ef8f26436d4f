//! A sheet of paper: shown, as plain text to share, and as a page of its own to save.

use std::fmt::Write as _;

use leptos::prelude::*;

use crate::text::Language;

/// One thing on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Block {
    /// A heading above the lines that follow it.
    Heading(String),
    /// A label with what belongs to it.
    Row(String, String),
    /// A line of a list.
    Item(String),
    /// A paragraph of running text.
    Words(String),
}

/// What is handed to the client, as a title and blocks in one language.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Sheet {
    pub(super) title: String,
    pub(super) language: Language,
    pub(super) blocks: Vec<Block>,
}

impl Sheet {
    /// On the screen and on paper.
    pub(super) fn view(self) -> impl IntoView {
        let blocks = self.blocks.into_iter().map(|block| match block {
            Block::Heading(text) => view! { <h3>{text}</h3> }.into_any(),
            Block::Row(label, value) => view! {
                <p class="sheet-row"><span>{label}</span> " " <strong>{value}</strong></p>
            }
            .into_any(),
            Block::Item(text) => view! { <p class="sheet-item">{text}</p> }.into_any(),
            Block::Words(text) => view! { <p>{text}</p> }.into_any(),
        });
        view! {
            <article class="sheet" lang=self.language.tag()>
                <h2>{self.title}</h2>
                {blocks.collect_view()}
            </article>
        }
    }

    /// Gives the sheet as plain text to share, one block a line.
    pub(super) fn text(&self) -> String {
        let mut text = format!("{}\n", self.title);
        for block in &self.blocks {
            // Writing to a text cannot fail.
            let _ = match block {
                Block::Heading(words) => writeln!(text, "\n{words}"),
                Block::Row(label, value) => writeln!(text, "{label}: {value}"),
                Block::Item(words) => writeln!(text, "- {words}"),
                Block::Words(words) => writeln!(text, "{words}"),
            };
        }
        text
    }

    /// As a page that needs nothing else.
    pub(super) fn page(&self) -> String {
        const LOOK: &str = "body{font:12pt/1.45 sans-serif;max-width:42em;margin:2em auto;\
            padding:0 1em;color:#000;background:#fff}h1{font-size:1.5em}h2{font-size:1.15em;\
            margin:1.4em 0 .4em}p{margin:.4em 0}.row{display:flex;flex-wrap:wrap;gap:0 1em;\
            justify-content:space-between;border-bottom:1px solid #bbb}.item{padding-left:1em;\
            text-indent:-1em}.item::before{content:\"\u{2013} \"}";
        let mut body = String::new();
        for block in &self.blocks {
            // Writing to a text cannot fail.
            let _ = match block {
                Block::Heading(words) => write!(body, "<h2>{}</h2>", escaped(words)),
                Block::Row(label, value) => write!(
                    body,
                    "<p class=\"row\"><span>{}</span> <b>{}</b></p>",
                    escaped(label),
                    escaped(value)
                ),
                Block::Item(words) => write!(body, "<p class=\"item\">{}</p>", escaped(words)),
                Block::Words(words) => write!(body, "<p>{}</p>", escaped(words)),
            };
        }
        let (tag, title) = (self.language.tag(), escaped(&self.title));
        format!(
            "<!doctype html><html lang=\"{tag}\"><head><meta charset=\"utf-8\">\
             <meta name=\"viewport\" content=\"width=device-width\"><title>{title}</title>\
             <style>{LOOK}</style></head><body><h1>{title}</h1>{body}</body></html>"
        )
    }
}

/// A text as it stands in a page.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_typed_is_words_and_nothing_else() {
        let sheet = Sheet {
            title: "Your floor".to_owned(),
            language: Language::En,
            blocks: vec![
                Block::Row("For".to_owned(), "<script>x</script> & \"co\"".to_owned()),
                Block::Item("mild cleaner".to_owned()),
            ],
        };
        let page = sheet.page();
        assert!(page.contains("&lt;script&gt;x&lt;/script&gt; &amp; &quot;co&quot;"));
        assert!(!page.contains("<script"));
        assert_eq!(sheet.text(), "Your floor\nFor: <script>x</script> & \"co\"\n- mild cleaner\n");
    }
}
