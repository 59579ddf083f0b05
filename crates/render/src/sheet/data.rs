//! What the sheet's script knows of the band: every set is in it once, whatever its colors and however often it is tied.

use super::passages::{PassageData, write_passage};
use super::rows::RowsData;
use super::{NoSheet, words};
use crate::frame::in_reach;
use crate::letters::of_threads;
use crate::prose::end_hows::EndHow;
use crate::prose::ends::{EndStep, as_steps, begin_steps, finish_steps};
use crate::prose::tell::Teller;
use crate::svg::rim_of;
use crate::{Passage, ProseOptions, Scene, TyingScript, list_colors};
use knotwright_numbers::ToNumber;
use knotwright_wording::is_hidden;
use serde::Serialize;
use std::collections::{BTreeMap, HashMap};

/// More steps in sets that differ are not gone through one at a time.
const MOST_STEPS: usize = 100_000;

/// Of a band with more knots, threads that change color are in their first one where one follows the steps.
const MOST_DYED: u64 = 50_000;

/// The band in steps, each in words.
#[derive(Debug, Serialize)]
pub(super) struct Data {
    threads: Vec<Thread>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    beads: Vec<Bead>,
    /// Where threads change color along their length: the colors that knots show.
    #[serde(skip_serializing_if = "Option::is_none")]
    dyed: Option<DyedKnots>,
    /// From one position to the next and from one row to the next, in tenths of a millimeter.
    cell: [f64; 2],
    /// How openings, sets and closings are tied, each way once.
    passages: Vec<PassageData>,
    /// What is made before the first knot: steps that tie none.
    begin: Option<Part>,
    opening: Option<Part>,
    /// The sets that differ.
    sets: Vec<Part>,
    /// Of them, the first that comes again after the last.
    again: usize,
    /// How often a set is tied.
    times: u64,
    closing: Option<Part>,
    /// What is made after the last knot.
    finish: Option<Part>,
    /// How the strands hang at the end: by position, the thread.
    end: Vec<u16>,
    rows: RowsData,
    /// The sentences of all steps.
    texts: Vec<String>,
    words: BTreeMap<&'static str, &'static str>,
}

#[derive(Debug, Serialize)]
struct Thread {
    name: String,
    letter: char,
    color: String,
    rim: String,
}

/// A bead; half its size is in tenths of a millimeter.
#[derive(Debug, Serialize)]
struct Bead {
    color: String,
    rim: String,
    radius: f64,
}

/// The colors of all knots.
#[derive(Debug, Serialize)]
struct DyedKnots {
    /// Each with its rim.
    colors: Vec<[String; 2]>,
    /// By part of the band and knot, the number of its color.
    parts: Vec<Vec<u16>>,
}

impl DyedKnots {
    fn of(script: &TyingScript) -> Option<Self> {
        let changes = script.threads.iter().any(|thread| !thread.shades.is_empty());
        if !changes || script.knots() > MOST_DYED {
            return None;
        }
        let band = script.band();
        let mut parts = vec![Vec::new(); band.parts.len()];
        for bead in Scene::of(&band).beads {
            parts.get_mut(bead.part.to_usize()).into_iter().for_each(|part| part.push(bead.thread));
        }
        let colors = list_colors(&script.threads).into_iter();
        let colors = colors.map(|(_, color)| [color.to_string(), rim_of(color).to_string()]).collect();
        Some(Self { colors, parts })
    }
}

/// An opening, a set or a closing in its colors.
#[derive(Debug, Serialize)]
struct Part {
    passage: usize,
    /// By position, the thread that hangs there as it begins.
    threads: Vec<u16>,
    /// By step, its sentence.
    texts: Vec<usize>,
    /// Of an end, by step, what of it is explained: numbers in [`EndHow::ALL`](crate::prose::end_hows::EndHow::ALL).
    #[serde(skip_serializing_if = "Vec::is_empty")]
    made: Vec<Vec<u32>>,
}

impl Data {
    pub(super) fn of(script: &TyingScript, options: &ProseOptions) -> Result<Self, NoSheet> {
        let words = options.language.words();
        let teller = options.teller(script);
        let different = script.different();
        let all = script.opening.iter().chain(&script.closing).chain(different.sets.iter().copied());
        if all.map(|passage| passage.steps.len()).sum::<usize>() > MOST_STEPS {
            return Err(NoSheet::TooManySteps);
        }
        let mut parts = KnownParts::default();
        let begin = parts.made(&begin_steps(&teller), script.strands.clone());
        let mut part = |passage: &Passage, threads: &[u16]| parts.add(&teller, passage, threads);
        let before_closing = script.threads_before_closing();
        let end = script
            .closing
            .as_ref()
            .map_or(before_closing.clone(), |last| last.threads_after(&before_closing));
        let opening = script.opening.as_ref().map(|opening| part(opening, &script.strands));
        let sets = different.sets.iter().zip(&different.hangs).map(|(set, hang)| part(set, hang)).collect();
        let closing = script.closing.as_ref().map(|closing| part(closing, &before_closing));
        let finish = parts.made(&finish_steps(&teller), end.clone());
        let cell = Scene::of(&crate::Band { parts: Vec::new(), ..script.band() }).cell;
        Ok(Self {
            threads: threads(script),
            beads: beads(script),
            dyed: DyedKnots::of(script),
            cell: [cell.x, cell.y],
            passages: parts.passages,
            begin,
            opening,
            sets,
            again: different.comes_again,
            times: script.times,
            closing,
            finish,
            end,
            rows: RowsData::of(script),
            texts: parts.texts,
            words: words::of(words, script),
        })
    }

    /// As JSON that can be in an element of HTML: no `<` in it.
    pub(super) fn json(&self) -> String {
        // No map in it has keys that are no strings, and memory takes all.
        let json = serde_json::to_string(self).unwrap_or_default();
        // No hidden sign means anything in JSON but within strings.
        json.replace('<', "\\u003c").replace(is_hidden, "")
    }

    /// Of how many sets a box can be ticked.
    pub(super) fn times(&self) -> u64 {
        self.times
    }
}

fn threads(script: &TyingScript) -> Vec<Thread> {
    let lettered = script.threads.iter().zip(of_threads(&script.threads));
    let thread = |(thread, letter): (&crate::BandThread, char)| Thread {
        name: thread.name.clone(),
        letter,
        color: thread.color.to_string(),
        rim: rim_of(thread.color).to_string(),
    };
    lettered.map(thread).collect()
}

fn beads(script: &TyingScript) -> Vec<Bead> {
    let bead = |bead: &crate::BandBead| Bead {
        color: bead.color.to_string(),
        rim: rim_of(bead.color).to_string(),
        radius: in_reach(bead.across) / 2.0,
    };
    script.beads.iter().map(bead).collect()
}

/// Passages and sentences, each once.
#[derive(Default)]
struct KnownParts {
    passages: Vec<PassageData>,
    texts: Vec<String>,
    /// By text, its number.
    number_of: HashMap<String, usize>,
}

impl KnownParts {
    fn add(&mut self, teller: &Teller<'_>, passage: &Passage, threads: &[u16]) -> Part {
        let (data, texts) = write_passage(teller, passage, threads);
        let known = self.passages.iter().position(|before| *before == data);
        let number = known.unwrap_or(self.passages.len());
        if known.is_none() {
            self.passages.push(data);
        }
        let threads = threads.to_vec();
        let texts = texts.into_iter().map(|text| self.text(text)).collect();
        Part { passage: number, threads, texts, made: Vec::new() }
    }

    /// An end, whose steps tie no knot.
    fn made(&mut self, steps: &[EndStep], threads: Vec<u16>) -> Option<Part> {
        if steps.is_empty() {
            return None;
        }
        let data = PassageData::without_knots(steps.len());
        let known = self.passages.iter().position(|before| *before == data);
        let passage = known.unwrap_or(self.passages.len());
        if known.is_none() {
            self.passages.push(data);
        }
        let made = steps.iter().map(|step| step.hows().into_iter().map(EndHow::number).collect()).collect();
        let texts = as_steps(steps).into_iter().map(|text| self.text(text)).collect();
        Some(Part { passage, threads, texts, made })
    }

    fn text(&mut self, text: String) -> usize {
        if let Some(number) = self.number_of.get(&text) {
            return *number;
        }
        let number = self.texts.len();
        self.texts.push(text.clone());
        self.number_of.insert(text, number);
        number
    }
}
