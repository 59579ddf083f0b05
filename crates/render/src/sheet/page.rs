//! The page.

use super::data::Data;
use super::style::{SCRIPT, band_key, hash_source, write_style};
use crate::chart::chart_windows;
use crate::ends::is_out_of_scale;
use crate::letters::of_threads;
use crate::prose::end_hows::EndHow;
use crate::prose::words::fill_in;
use crate::prose::{ProseDocument, ends, start, tell::Teller, write_parts};
use crate::svg::write_symbols;
use crate::text::write_escaped;
use crate::{
    Band, BandPart, BandThread, ChartOptions, ChartWords, ProseOptions, Scene, SvgOptions, TyingScript,
    draw_svg,
};
use knotwright_band::Piece;
use knotwright_numbers::ToNumber;

/// More knots are not drawn: the first sets stand for all.
const MOST_KNOTS_DRAWN: usize = 2_000;

/// A chart of more knots would be hundreds of pages.
const MOST_KNOTS_CHARTED: usize = 6_000;

/// Sets that differ in the chart: the least, and the most, where they have no more knots than follows.
const SETS_CHARTED: (usize, usize) = (4, 12);
const MOST_KNOTS_OF_SETS: usize = 1_500;

/// More sets have no box to tick.
const MOST_BOXES: u64 = 200;

pub(super) fn write_page(script: &TyingScript, options: &ProseOptions, data: &Data) -> String {
    let teller = options.teller(script);
    let page = Page { script, options, data, teller };
    page.write()
}

struct Page<'a> {
    script: &'a TyingScript,
    options: &'a ProseOptions,
    data: &'a Data,
    teller: Teller<'a>,
}

impl Page<'_> {
    fn write(&self) -> String {
        let (style, data) = (write_style(&self.script.threads), self.data.json());
        let policy = format!(
            "default-src 'none'; script-src {}; style-src {}; base-uri 'none'; form-action 'none'",
            hash_source(SCRIPT),
            hash_source(&style)
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
            band_key(&data),
            self.head(),
            self.follow(),
            self.picture(),
            self.before(),
            self.steps(),
            self.after(),
        )
    }

    /// The title, which unfolds what the author says.
    fn head(&self) -> String {
        let mut document = ProseDocument::new();
        start::write_credits(&self.teller, self.options, &mut document);
        format!(
            "<header>\n<details id=\"head\" open>\n<summary><h1>{}</h1></summary>\n{}</details>\n</header>\n",
            html(&self.script.title),
            document.html(0)
        )
    }

    /// The steps one at a time; without a script it stays hidden.
    fn follow(&self) -> String {
        let words = &self.teller.words.sheet;
        let names = [
            ("no_script", words.no_script),
            ("follow", words.follow),
            ("now", words.hangs_before),
            ("then", words.hangs_after),
            ("strip", words.strip),
            ("back", words.back),
            ("next", words.done),
            ("how", words.how),
            ("lost", words.lost),
            ("lost_how", words.lost_how),
            ("lost_remove", words.lost_remove),
            ("jump", words.whole_set_done),
            ("begin", words.begin_again),
            ("awake", words.awake),
            ("save_times", words.save_times),
            ("keys", words.keys),
            ("not_kept", words.not_kept),
        ];
        let escaped = names.map(|(name, text)| (name, html(text)));
        let mut values: Vec<(&str, &str)> =
            escaped.iter().map(|(name, text)| (*name, text.as_str())).collect();
        let drawings = start::write_figures(&self.teller) + &self.hows();
        values.push(("drawings", &drawings));
        fill_in(include_str!("follow.html"), &values)
    }

    /// How ends and beads are made, for the steps that make them.
    fn hows(&self) -> String {
        let teller = &self.teller;
        let mut hows = ends::hows_of(&ends::begin_steps(teller));
        hows.extend(ends::hows_of(&ends::finish_steps(teller)));
        hows.extend(self.script.bead_counts().iter().any(|count| *count > 0).then_some(EndHow::Bead));
        let line =
            |how: EndHow| format!("<p data-made=\"{}\">{}</p>\n", how.number(), html(teller.explain(how)));
        hows.into_iter().map(line).collect()
    }

    fn picture(&self) -> String {
        let words = &self.teller.words.sheet;
        let options =
            SvgOptions { prefix: "band-".into(), pixels_per_millimeter: 9.0, ..SvgOptions::default() };
        let cut = self.cut();
        let mut band = self.drawn();
        if let (Some(piece), Some(first)) = (&cut, self.script.band().parts.first()) {
            band.parts = vec![BandPart { piece, steps: &[], wish: first.wish, beads: Vec::new(), set: 0 }];
        }
        let scene = Scene::of(&band);
        format!(
            "{}<section id=\"picture\" aria-labelledby=\"picture-head\">\n<h2 id=\"picture-head\">{}</h2>\n\
             <div id=\"scroll\" tabindex=\"0\" role=\"group\" aria-labelledby=\"picture-head\">{}</div>\n{}</section>\n",
            write_symbols(scene.cell, "knot-"),
            html(words.picture),
            draw_svg(&scene, &options),
            if is_out_of_scale(&band) { paragraph(words.ends_scale) } else { String::new() },
        )
    }

    /// The band, or its first parts if those are enough to look at.
    fn drawn(&self) -> Band<'_> {
        let mut band = self.script.band();
        let mut knots = 0;
        let mut fits = |part: &BandPart<'_>| {
            knots += part.piece.knots().len();
            knots <= MOST_KNOTS_DRAWN
        };
        let count = band.parts.iter().take_while(|part| fits(part)).count();
        band.parts.truncate(count);
        band
    }

    /// The beginning of the first part, if it is too long to be drawn whole.
    fn cut(&self) -> Option<Piece> {
        let band = self.script.band();
        let piece = band.parts.first()?.piece;
        let knots = piece.knots().get(..MOST_KNOTS_DRAWN)?;
        let most = MOST_KNOTS_DRAWN.to_u32();
        let straight = piece.straight().iter().filter(|row| row.end <= most).cloned().collect();
        let tied = Piece::tie(piece.strands(), knots.iter().map(|knot| (knot.gap, knot.kind))).ok()?;
        tied.with_straight(straight).ok()
    }

    /// The knots of the chart.
    fn charted(&self) -> usize {
        let script = self.script;
        let different = script.different().sets.into_iter().take(self.sets_charted());
        script
            .opening
            .iter()
            .chain(&script.closing)
            .chain(different)
            .map(|part| part.piece.knots().len())
            .sum()
    }

    /// How many sets that differ are in the chart; it says which are not.
    fn sets_charted(&self) -> usize {
        let (least, most) = SETS_CHARTED;
        let sets = self.script.different().sets.into_iter();
        let largest = sets.map(|set| set.piece.knots().len()).max().unwrap_or_default();
        (MOST_KNOTS_OF_SETS / largest.max(1)).clamp(least, most)
    }

    /// What is done before the first knot.
    fn before(&self) -> String {
        let (teller, words) = (&self.teller, self.teller.words);
        let mut out = String::from("<section id=\"start\">\n");
        out.push_str(&self.swatches());
        if let Some(materials) = &self.script.materials {
            out.push_str(&format!("<h2>{}</h2>\n", html(words.materials)));
            out.push_str(&paragraph(&start::describe_size(teller, materials)));
            if materials.length_assumed {
                out.push_str(&paragraph(words.size_assumed));
            }
            out.push_str(&paragraph(words.sheet.cut_off));
            let lines = start::cut_list(teller, materials);
            out.push_str(&boxes("cut", &lines, "lines"));
            let repeats = start::describe_repeats(teller, materials);
            out.extend(repeats.iter().map(|text| paragraph(text)));
            let beads = start::bead_list(teller);
            if !beads.is_empty() {
                out.push_str(&paragraph(words.beads.buy));
                out.push_str(&boxes("bead", &beads, "lines"));
            }
            out.push_str(&paragraph(&start::describe_reserve(teller, materials)));
            out.push_str(&paragraph(&start::describe_basis(teller, materials)));
            out.push_str(&paragraph(start::describe_tools(teller)));
        }
        let mut document = ProseDocument::new();
        ends::write_begin(teller, &mut document);
        start::write_layout(teller, self.options, &mut document);
        start::write_knots(teller, &mut document);
        out.push_str(&document.html(0));
        out.push_str("</section>\n");
        out
    }

    /// Every thread with its color and its letter.
    fn swatches(&self) -> String {
        let lettered = self.script.threads.iter().zip(of_threads(&self.script.threads)).enumerate();
        let line = |(number, (thread, letter)): (usize, (&BandThread, char))| {
            let letter = html(&letter.to_string());
            format!("<li><b class=\"swatch t{number}\">{letter}</b> {}</li>\n", html(&thread.name))
        };
        let lines: String = lettered.map(line).collect();
        format!("<h2>{}</h2>\n<ul class=\"swatches\">\n{lines}</ul>\n", html(self.teller.words.sheet.threads))
    }

    /// All steps, with a box for every set, and the chart.
    fn steps(&self) -> String {
        let words = &self.teller.words.sheet;
        let mut document = ProseDocument::new();
        write_parts(&self.teller, self.options, &mut document);
        let mut out = format!("<section id=\"all\">\n<h2>{}</h2>\n", html(words.all_steps));
        let times = self.data.times();
        if (1..=MOST_BOXES).contains(&times) {
            out.push_str(&paragraph(words.sets_tied));
            let named = |number: u64| fill_in(words.set_box, &[("number", &number.to_string())]);
            out.push_str(&boxes("set", &(1..=times).map(named).collect::<Vec<_>>(), "sets"));
        }
        out.push_str(&document.html(1));
        out.push_str("</section>\n");
        if self.charted() > MOST_KNOTS_CHARTED {
            return out;
        }
        out.push_str(&format!(
            "<section id=\"chart\" aria-labelledby=\"chart-head\">\n<h2 id=\"chart-head\">{}</h2>\n\
             <div id=\"chart-scroll\" tabindex=\"0\" role=\"group\" aria-labelledby=\"chart-head\">{}</div>\n</section>\n",
            html(words.chart),
            chart_windows(self.script, &self.chart_options()).concat()
        ));
        out
    }

    fn chart_options(&self) -> ChartOptions {
        let [
            forward,
            backward,
            forward_backward,
            backward_forward,
            leader_shows,
            strand_shows,
            wished,
            joined,
            ribbon,
            order,
            side,
            ends,
            sets,
            left_out,
            left_out_one,
        ] = self.teller.words.sheet.chart_words.map(str::to_owned);
        let words = ChartWords {
            forward,
            backward,
            forward_backward,
            backward_forward,
            leader_shows,
            strand_shows,
            wished,
            joined,
            ribbon,
            order,
            side,
            ends,
            opening: self.teller.words.sheet.where_opening.to_owned(),
            set: fill_in(self.teller.words.set_number, &[("number", "")]).trim().to_owned(),
            sets,
            left_out,
            left_out_one,
            closing: self.teller.words.sheet.where_closing.to_owned(),
        };
        ChartOptions {
            color: false,
            words,
            most_sets: self.sets_charted(),
            prefix: "chart-".into(),
            ..ChartOptions::default()
        }
    }

    fn after(&self) -> String {
        let words = self.teller.words;
        let cautions = ends::list_cautions(&self.teller).into_iter();
        let cautions: String = cautions.map(|text| format!("<li>{}</li>\n", html(text))).collect();
        let mut document = ProseDocument::new();
        ends::write_finish(&self.teller, &mut document);
        format!(
            "<section id=\"end\">\n{}<h2>{}</h2>\n<ul>\n{cautions}</ul>\n</section>\n",
            document.html(0),
            html(words.care)
        )
    }
}

fn html(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    write_escaped(&mut out, text);
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
