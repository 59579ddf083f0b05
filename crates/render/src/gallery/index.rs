//! The page on which all bands hang.

use super::{BandFacts, CutLine, HungThread, head, html};
use std::collections::BTreeSet;

const SCRIPT: &str = include_str!("gallery.js");

/// A band in the gallery.
#[derive(Debug, Clone, Copy)]
pub struct HangingBand<'a> {
    /// What is said of it.
    pub facts: &'a BandFacts,
    /// The file it is in, as it is shown and looked for.
    pub file: &'a str,
    /// The address of its picture.
    pub picture: &'a str,
    /// The address of its words.
    pub words: &'a str,
    /// The address of its sheet, if there is one.
    pub sheet: Option<&'a str>,
}

/// Writes the page. The same bands give the same bytes.
pub fn write_gallery(title: &str, bands: &[HangingBand<'_>]) -> String {
    let mut bands = bands.to_vec();
    bands.sort_by_cached_key(|band| (band.facts.title.to_lowercase(), band.file));
    let mut by_size: Vec<usize> = (0..bands.len()).collect();
    by_size.sort_by(|one, other| {
        size(&bands[*one]).partial_cmp(&size(&bands[*other])).unwrap_or(std::cmp::Ordering::Equal)
    });
    let mut rank = vec![0; bands.len()];
    by_size.iter().enumerate().for_each(|(place, band)| rank[*band] = place);
    let cards: String = bands.iter().zip(rank).map(|(band, rank)| card(band, rank)).collect();
    let count = match bands.len() {
        1 => "1 band".to_owned(),
        count => format!("{count} bands"),
    };
    format!(
        "{}<body>\n<header>\n<h1>{}</h1>\n<form id=\"seek\" role=\"search\" hidden>\n\
         <label class=\"field\">Find <input type=\"search\" id=\"words\" autocomplete=\"off\" spellcheck=\"false\" \
         placeholder=\"title, thread, strands\"></label>\n\
         <fieldset><legend>In order of</legend>\n<label><input type=\"radio\" name=\"order\" value=\"name\" checked> name</label>\n\
         <label><input type=\"radio\" name=\"order\" value=\"size\"> size</label></fieldset>\n</form>\n\
         <p id=\"count\" role=\"status\">{count}</p>\n</header>\n<main>\n<ul id=\"bands\">\n{cards}</ul>\n\
         <p id=\"none\" hidden>No band has all of these words.</p>\n</main>\n\
         <footer><p>Cautions stand on every sheet: read them before you cut. Made with Knotwright.</p></footer>\n\
         <script>{SCRIPT}</script>\n</body>\n</html>\n",
        head(title, &style(&bands), Some(SCRIPT)),
        html(title),
    )
}

/// Slim bands first, and of those that are equally broad the short ones.
fn size(band: &HangingBand<'_>) -> (usize, f64) {
    (band.facts.strands.len(), band.facts.millimeters)
}

/// The style: that of every gallery, and a class for every color.
fn style(bands: &[HangingBand<'_>]) -> String {
    let mut style = include_str!("gallery.css").to_owned();
    let threads = bands.iter().flat_map(|band| &band.facts.threads);
    let colors: BTreeSet<String> = threads.map(color_class).collect();
    style.extend(colors);
    style
}

fn color_class(thread: &HungThread) -> String {
    format!(".{}{{background:{};color:{}}}\n", class(thread), thread.color, thread.color.ink())
}

fn class(thread: &HungThread) -> String {
    format!("c{}", thread.color.to_string().trim_start_matches('#'))
}

fn card(band: &HangingBand<'_>, rank: usize) -> String {
    let facts = band.facts;
    let (title, [wide, high]) = (html(&facts.title), facts.picture);
    let sheet = band.sheet.map_or_else(String::new, |sheet| {
        format!(" <a href=\"{}\">Sheet<span class=\"heard\"> of {title}</span></a>", html(sheet))
    });
    format!(
        "<li data-size=\"{rank}\" data-find=\"{}\">\n\
         <a class=\"hung\" href=\"{words}\" tabindex=\"-1\" aria-hidden=\"true\"><img src=\"{}\" alt=\"\" width=\"{wide}\" \
         height=\"{high}\" loading=\"lazy\" decoding=\"async\"></a>\n<div>\n<h2><a href=\"{words}\">{title}</a></h2>\n{}\
         <p class=\"size\">{}</p>\n{}<p class=\"ways\"><a href=\"{words}\">Words<span class=\"heard\"> of {title}</span></a>{sheet}</p>\n\
         </div>\n</li>\n",
        html(&sought(band)),
        html(band.picture),
        strands(facts),
        describe_facts(facts),
        cut(facts),
        words = html(band.words),
    )
}

/// What is looked through besides what the card says.
fn sought(band: &HangingBand<'_>) -> String {
    let facts = band.facts;
    let names = facts.threads.iter().map(|thread| thread.name.as_str());
    let authors = facts.authors.iter().map(String::as_str);
    let rest = [facts.about.as_str(), facts.license.as_deref().unwrap_or_default(), band.file];
    names.chain(authors).chain(rest).collect::<Vec<_>>().join(" ")
}

/// How the strands hang at the start, each by its letter.
fn strands(facts: &BandFacts) -> String {
    let hung = || facts.strands.iter().filter_map(|strand| facts.threads.get(*strand));
    let names = hung().map(|thread| thread.name.as_str()).collect::<Vec<_>>().join(", ");
    let chip = |thread: &HungThread| {
        format!(
            "<span class=\"{}\" aria-hidden=\"true\">{}</span>",
            class(thread),
            html(&thread.letter.to_string())
        )
    };
    let chips: String = hung().map(chip).collect();
    format!(
        "<p class=\"strands\"><span class=\"heard\">From left to right: {}</span>{chips}</p>\n",
        html(&names)
    )
}

/// How many strands, and how large, on two lines.
fn describe_facts(facts: &BandFacts) -> String {
    let strands = match facts.strands.len() {
        1 => "1 strand".to_owned(),
        count => format!("{count} strands"),
    };
    if facts.wished {
        return format!("{strands}<br>a picture that nothing ties yet");
    }
    if facts.length.is_empty() {
        return strands;
    }
    let (length, width) = (together(&facts.length), together(&facts.width));
    let length = if facts.length_assumed { "any length".to_owned() } else { format!("{length} long") };
    format!("{strands}<br>{}", html(&format!("{width} wide, {length}")))
}

/// A number and its unit, which stay on one line.
fn together(length: &str) -> String {
    length.replace(' ', "\u{a0}")
}

fn cut(facts: &BandFacts) -> String {
    if facts.cut.is_empty() {
        return String::new();
    }
    let line = |line: &CutLine| {
        let thread = facts.threads.get(line.thread)?;
        let pieces: Vec<String> = line
            .pieces
            .iter()
            .map(|(count, length)| format!("{count}\u{a0}\u{d7}\u{a0}{}", together(length)))
            .collect();
        Some(format!(
            "<li><span class=\"chip {}\" aria-hidden=\"true\">{}</span> <span>{}: {} (in all {})</span></li>\n",
            class(thread),
            html(&thread.letter.to_string()),
            html(&thread.name),
            html(&pieces.join(", ")),
            html(&together(&line.total))
        ))
    };
    let lines: String = facts.cut.iter().filter_map(line).collect();
    let length = if facts.length_assumed {
        format!(", for {}", html(&together(&facts.length)))
    } else {
        String::new()
    };
    format!("<details><summary>Thread to cut{length}</summary>\n<ul class=\"cut\">\n{lines}</ul></details>\n")
}
