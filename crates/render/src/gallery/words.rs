//! The page with the words of one band.

use super::{head, html};
use crate::{ProseOptions, TyingScript, write_instructions};

/// Where the page of words leads.
#[derive(Debug, Clone, Copy)]
pub struct WordsLinks<'a> {
    /// To the gallery.
    pub gallery: &'a str,
    /// To the picture.
    pub picture: &'a str,
    /// To the sheet, if there is one.
    pub sheet: Option<&'a str>,
}

/// Writes the instructions of a band as a page, with its picture, and a way back.
pub fn page_of_words(script: &TyingScript, links: WordsLinks<'_>, [wide, high]: [u32; 2]) -> String {
    let document = write_instructions(script, &ProseOptions::default());
    let sheet = links.sheet.map_or_else(String::new, |sheet| {
        format!(" <a href=\"{}\">The sheet, to print or to follow step by step</a>", html(sheet))
    });
    format!(
        "{}<body class=\"words\">\n<nav><p class=\"ways\"><a href=\"{}\">All bands</a>{sheet}</p></nav>\n<main>\n\
         <p class=\"hung\"><img src=\"{}\" alt=\"The band {title}\" width=\"{wide}\" height=\"{high}\"></p>\n\
         <div>\n{}</div>\n</main>\n</body>\n</html>\n",
        head(&script.title, include_str!("gallery.css"), None),
        html(links.gallery),
        html(links.picture),
        document.html(0),
        title = html(&script.title),
    )
}
