//! The page.

use super::data::Data;
use super::style::{SCRIPT, key, named, style};
use crate::prose::words::fill;
use crate::prose::{Document, parts, start, tell::Teller};
use crate::text::escaped;
use crate::{Band, ChartOptions, ChartWords, ProseOptions, Scene, Script, SvgOptions, chart, svg};

/// More knots are not drawn: the first sets stand for all.
const MOST_KNOTS_DRAWN: u64 = 20_000;

/// Sets in the chart, if they differ.
const MOST_SETS_CHARTED: usize = 4;

/// More sets have no box to tick.
const MOST_BOXES: u64 = 200;

pub(super) fn write(script: &Script, options: &ProseOptions, data: &Data) -> String {
    let teller = Teller { script, words: options.language.words(), counting: options.counting() };
    let page = Page { script, options, data, teller };
    page.write()
}

struct Page<'a> {
    script: &'a Script,
    options: &'a ProseOptions,
    data: &'a Data,
    teller: Teller<'a>,
}

impl Page<'_> {
    fn write(&self) -> String {
        let (style, data) = (style(&self.script.threads), self.data.json());
        let policy = format!(
            "default-src 'none'; script-src {}; style-src {}; base-uri 'none'; form-action 'none'",
            named(SCRIPT),
            named(&style)
        );
        let title = html(&self.script.title);
        let language = self.options.language.tag();
        format!(
            "<!doctype html>\n<html lang=\"{language}\" data-band=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
             <meta name=\"color-scheme\" content=\"light dark\">\n<title>{title}</title>\n<style>{style}</style>\n\
             </head>\n<body>\n{}<main>\n{}{}{}{}{}</main>\n\
             <script type=\"application/json\" id=\"band\">{data}</script>\n<script>{SCRIPT}</script>\n</body>\n</html>\n",
            key(&data),
            self.head(),
            self.follow(),
            self.picture(),
            self.before(),
            self.steps(),
            self.after(),
        )
    }

    fn head(&self) -> String {
        let mut document = Document::new();
        start::head(&self.teller, self.options, &mut document);
        format!("<header>\n{}</header>\n", document.html(0))
    }

    /// The steps one at a time; without a script it stays hidden.
    fn follow(&self) -> String {
        let words = &self.teller.words.sheet;
        let text = |text: &str| html(text);
        format!(
            "<p class=\"told\" id=\"no-script\">{}</p>\n\
             <section id=\"follow\" aria-labelledby=\"follow-head\" hidden>\n<h2 id=\"follow-head\">{}</h2>\n\
             <p id=\"where\"></p>\n<progress id=\"progress\" aria-labelledby=\"where\" value=\"0\" max=\"1\"></progress>\n\
             <div id=\"step\" role=\"status\"><p id=\"notes\"></p><p id=\"text\"></p></div>\n\
             <h3 id=\"now-head\">{}</h3>\n<ol id=\"now\" class=\"chips\" aria-labelledby=\"now-head\"></ol>\n\
             <h3 id=\"then-head\">{}</h3>\n<ol id=\"then\" class=\"chips\" aria-labelledby=\"then-head\"></ol>\n\
             <p class=\"buttons\"><button type=\"button\" id=\"back\">{}</button>\
             <button type=\"button\" id=\"next\">{}</button></p>\n\
             <p class=\"buttons small\"><button type=\"button\" id=\"jump\">{}</button>\
             <button type=\"button\" id=\"begin\">{}</button></p>\n<p class=\"told\">{}</p>\n\
             <p class=\"told\" id=\"not-kept\" hidden>{}</p>\n</section>\n",
            text(words.no_script),
            text(words.follow),
            text(words.hangs_before),
            text(words.hangs_after),
            text(words.back),
            text(words.done),
            text(words.whole_set_done),
            text(words.begin_again),
            text(words.keys),
            text(words.not_kept),
        )
    }

    fn picture(&self) -> String {
        let words = &self.teller.words.sheet;
        let options = SvgOptions {
            steps: true,
            prefix: "band-".into(),
            pixels_per_millimeter: 9.0,
            ..SvgOptions::default()
        };
        let picture = svg(&Scene::of(&self.drawn()), &options);
        format!(
            "<section id=\"picture\" aria-labelledby=\"picture-head\">\n<h2 id=\"picture-head\">{}</h2>\n\
             <div id=\"scroll\" tabindex=\"0\" role=\"group\" aria-labelledby=\"picture-head\">{picture}</div>\n</section>\n",
            html(words.picture)
        )
    }

    /// The band, or its beginning if that is enough to look at.
    fn drawn(&self) -> Band<'_> {
        let mut band = self.script.band();
        let mut knots = 0;
        let mut fits = |part: &crate::Part<'_>| {
            knots += part.piece.knots().len() as u64;
            knots <= MOST_KNOTS_DRAWN
        };
        let count = band.parts.iter().take_while(|part| fits(part)).count();
        band.parts.truncate(count.max(1));
        band
    }

    /// What is done before the first knot.
    fn before(&self) -> String {
        let (teller, words) = (&self.teller, self.teller.words);
        let mut out = String::from("<section id=\"start\">\n");
        if let Some(materials) = &self.script.materials {
            out.push_str(&format!("<h2>{}</h2>\n", html(words.materials)));
            out.push_str(&paragraph(&start::size(teller, materials)));
            if materials.length_assumed {
                out.push_str(&paragraph(words.size_assumed));
            }
            out.push_str(&paragraph(words.sheet.cut_off));
            let lines = start::cut_list(teller, materials);
            out.push_str(&boxes("cut", &lines, "lines"));
            out.push_str(&paragraph(&start::reserve(teller, materials)));
            out.push_str(&paragraph(&start::basis(teller, materials)));
            out.push_str(&paragraph(words.tools));
        }
        let mut document = Document::new();
        start::layout(teller, self.options, &mut document);
        start::knots(teller, &mut document);
        out.push_str(&document.html(0));
        out.push_str("</section>\n");
        out
    }

    /// All steps, with a box for every set, and the chart.
    fn steps(&self) -> String {
        let words = &self.teller.words.sheet;
        let mut document = Document::new();
        parts(&self.teller, self.options, &mut document);
        let mut out = format!("<section id=\"all\">\n<h2>{}</h2>\n", html(words.all_steps));
        let times = self.data.times();
        if (1..=MOST_BOXES).contains(&times) {
            out.push_str(&paragraph(words.sets_tied));
            let named = |number: u64| fill(words.set_box, &[("number", &number.to_string())]);
            out.push_str(&boxes("set", &(1..=times).map(named).collect::<Vec<_>>(), "sets"));
        }
        out.push_str(&document.html(1));
        out.push_str("</section>\n");
        out.push_str(&format!(
            "<section id=\"chart\" aria-labelledby=\"chart-head\">\n<h2 id=\"chart-head\">{}</h2>\n\
             <div id=\"chart-scroll\" tabindex=\"0\" role=\"group\" aria-labelledby=\"chart-head\">{}</div>\n</section>\n",
            html(words.chart),
            chart(&self.charted(), &self.chart_options())
        ));
        out
    }

    /// Opening, the sets that differ and closing, once each.
    fn charted(&self) -> Band<'_> {
        let mut band = self.script.band();
        let different = self.script.different().sets.len().min(MOST_SETS_CHARTED);
        let (before, after) =
            (usize::from(self.script.opening.is_some()), usize::from(self.script.closing.is_some()));
        let sets = band.parts.len().saturating_sub(before + after);
        if sets > different {
            band.parts.drain(before + different..before + sets);
        }
        band
    }

    fn chart_options(&self) -> ChartOptions {
        let [
            forward,
            backward,
            forward_backward,
            backward_forward,
            leader_shows,
            strand_shows,
            ribbon,
            order,
            side,
        ] = self.teller.words.sheet.chart_words.map(str::to_owned);
        let words = ChartWords {
            forward,
            backward,
            forward_backward,
            backward_forward,
            leader_shows,
            strand_shows,
            ribbon,
            order,
            side,
        };
        ChartOptions { color: false, words, prefix: "chart-".into() }
    }

    fn after(&self) -> String {
        let words = self.teller.words;
        let cautions: String =
            words.cautions.iter().map(|text| format!("<li>{}</li>\n", html(text))).collect();
        format!(
            "<section id=\"end\">\n<h2>{}</h2>\n{}<h2>{}</h2>\n<ul>\n{cautions}</ul>\n</section>\n",
            html(words.finish),
            paragraph(words.finish_text),
            html(words.care)
        )
    }
}

fn html(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    escaped(&mut out, text);
    out
}

fn paragraph(text: &str) -> String {
    format!("<p>{}</p>\n", html(text))
}

/// Lines with a box each.
fn boxes(name: &str, lines: &[String], class: &str) -> String {
    let line = |(number, text): (usize, &String)| {
        format!(
            "<li><label><input type=\"checkbox\" data-tick=\"{name}-{number}\"> <span>{}</span></label></li>\n",
            html(text)
        )
    };
    let lines: String = lines.iter().enumerate().map(line).collect();
    format!("<ul class=\"boxes {class}\">\n{lines}</ul>\n")
}
