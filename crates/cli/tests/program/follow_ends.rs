//! Someone who has seen no picture follows what `write` says of the beginning and the end of a band, and what they have
//! made then.

use crate::follow::{number, times as how_often};
use knotwright_numbers::ToNumber;
use serde_json::{Value, json};

/// Who makes the ends: of which strands, and whether they read of the band in a mirror.
pub(crate) struct EndsFollower {
    pub(crate) strands: usize,
    pub(crate) is_image: bool,
}

/// A step, and what is done with each part.
struct Step<'a> {
    text: &'a str,
    within: Vec<Step<'a>>,
}

/// Numbered steps of Markdown; each list counts from 1.
fn steps<'a>(lines: &[(usize, &'a str)]) -> Vec<Step<'a>> {
    let Some((depth, _)) = lines.first() else { return Vec::new() };
    let mut found = Vec::new();
    let mut at = 0;
    while let Some((_, line)) = lines.get(at) {
        at += 1;
        let (count, text) = line.split_once(". ").unwrap();
        assert_eq!(count.parse::<usize>().unwrap(), found.len() + 1, "{line}");
        let below = lines[at..].iter().take_while(|(below, _)| below > depth).count();
        found.push(Step { text, within: steps(&lines[at..at + below]) });
        at += below;
    }
    found
}

impl EndsFollower {
    /// Does what a section says, and tells what was made, as `export` does.
    pub(crate) fn follow(&self, section: &str) -> Vec<Value> {
        let is_step = |line: &&str| line.trim().starts_with(|first: char| first.is_ascii_digit());
        let lines: Vec<(usize, &str)> = section
            .lines()
            .filter(is_step)
            .map(|line| ((line.len() - line.trim_start().len()) / 3, line.trim()))
            .collect();
        let steps = steps(&lines);
        let mut pieces = Vec::new();
        let mut trimmed = false;
        for step in &steps {
            if step.text.starts_with("Lay the strands together") || step.text.starts_with("Fold each thread")
            {
                assert!(pieces.is_empty(), "the strands are laid together before all else");
            } else if step.text == "Trim what is left over." {
                trimmed = true;
            } else if step.text == "Trim the tassel of the beginning evenly." {
                assert!(
                    pieces.iter().any(|piece: &Value| piece["piece"] == "closing-knot"),
                    "tied before it is trimmed"
                );
            } else if step.text.contains(" free as a tassel at each part, ") {
                hang_at_parts(&mut pieces, length(step.text));
            } else {
                pieces.push(self.piece(step, &[self.strands]));
            }
        }
        // What is trimmed last lies before what closes the band.
        let closes = |piece: &Value| piece["piece"] == "closing-knot" || piece["piece"] == "slide";
        if let Some(first) = pieces.iter().position(closes) {
            let last = pieces[first..].iter().take_while(|piece| closes(piece)).count();
            assert!(pieces[first + last..].iter().all(|piece| piece["piece"] == "tassel"));
            pieces[first..].rotate_left(last);
        }
        assert!(
            !trimmed || !Value::from(pieces.clone()).to_string().contains("tassel"),
            "what is left of a tassel?"
        );
        pieces
    }

    /// One piece of all strands, or of each part; `parts`: how many strands they have.
    fn piece(&self, step: &Step, parts: &[usize]) -> Value {
        let text = step.text;
        assert!(step.within.is_empty() || text.contains(" parts ("), "{text}");
        assert!(
            !text.contains("when the band is closed") || text.contains(" free as a tassel; trim it"),
            "{text}"
        );
        if text == "Tie the strands together with one overhand knot." {
            json!({ "piece": "knot" })
        } else if text.starts_with("Lay the band around the wrist, ") {
            json!({ "piece": "closing-knot" })
        } else if let Some(bead) = text.strip_prefix("Thread a bead (") {
            let onto = if parts.len() > 1 { "the strands of this part" } else { "all the strands" };
            json!({ "piece": "bead", "bead": bead.strip_suffix(&format!(") onto {onto}, with a needle.")).unwrap() })
        } else if text.starts_with("Lay both ends side by side") {
            self.wound(text, "slide", " around both ")
        } else if text.starts_with("Wrap ") {
            self.wound(text, "wrap", " around the strands ")
        } else if text.contains(" once around") {
            json!({ "piece": "loop", "length_mm": length(text) })
        } else if text.contains(" free as a tassel") {
            json!({ "piece": "tassel", "length_mm": length(text) })
        } else {
            self.divided(step, parts)
        }
    }

    fn wound(&self, text: &str, piece: &str, around: &str) -> Value {
        let (thread, rest) = text.split_once("Wrap ").unwrap().1.split_once(around).unwrap();
        let times = rest.split(',').next().unwrap();
        let turns = how_often(times).unwrap().0;
        json!({ "piece": piece, "color": thread, "turns": turns })
    }

    fn divided(&self, step: &Step, parts: &[usize]) -> Value {
        let (into, rest) =
            step.text.strip_prefix("Divide the strands into ").unwrap().split_once(" (").unwrap();
        let (count, what) = into.split_once(' ').unwrap();
        let (shares, how) = rest.split_once(')').unwrap();
        let count = number(count);
        let shared: Vec<usize> =
            parts.iter().flat_map(|strands| self.shares(shares, count, *strands)).collect();
        assert_eq!(shared.len(), count * parts.len());
        let begins = if self.is_image { "right" } else { "left" };
        match what {
            "parts" => {
                assert_eq!(how, if step.within.is_empty() { "." } else { ". Do this with each part:" });
                let pieces: Vec<Value> = step.within.iter().map(|step| self.piece(step, &shared)).collect();
                json!({ "piece": "split", "parts": count, "pieces": pieces })
            }
            "bundles" if how.contains("Twist each") => {
                let other = if self.is_image { "left" } else { "right" };
                assert!(how.contains(&format!("to the {other} until")), "{how}");
                assert!(how.contains(&format!("each other to the {begins}, for")), "{how}");
                json!({ "piece": "twist", "length_mm": length(how) })
            }
            "bundles" => {
                let way = match count {
                    3 => format!("Lay the {begins} bundle over the middle one"),
                    _ => format!("Always take the bundle at the {begins} edge over the next one"),
                };
                assert!(how.contains(&way), "{how}");
                json!({ "piece": "plait", "bundles": count, "length_mm": length(how) })
            }
            other => panic!("into what? {other}"),
        }
    }

    /// How many strands each of `count` gets of all; the words may tell of larger and of smaller parts.
    fn shares(&self, said: &str, count: usize, strands: usize) -> Vec<usize> {
        let all = said.split("; in a smaller part ").map(|said| self.shares_of_one(said, count));
        let fitting: Vec<Vec<usize>> = all.filter(|shares| shares.iter().sum::<usize>() == strands).collect();
        assert_eq!(fitting.len(), 1, "({said}) for {strands} strands");
        let even = |share: &usize| *share == strands / count || *share == strands.div_ceil(count);
        assert!(fitting[0].iter().all(even), "({said}) is not even for {strands} strands");
        fitting[0].clone()
    }

    fn shares_of_one(&self, said: &str, count: usize) -> Vec<usize> {
        if let Some(each) = said.strip_suffix(" each") {
            let (each, strands) = each.split_once(' ').unwrap();
            assert!(strands == "strand" || strands == "strands", "{said}");
            return vec![number(each); count];
        }
        let side = if self.is_image { " strands, from the right" } else { " strands, from the left" };
        let list = said.strip_suffix(side).unwrap_or_else(|| panic!("from which side? {said}"));
        list.replace(" and ", ", ").split(", ").map(number).collect()
    }
}

/// What is left to hang at each of the last parts; these are tied together by now.
fn hang_at_parts(pieces: &mut [Value], length: f64) {
    let parts = pieces.iter_mut().rev().find(|piece| piece["piece"] == "split");
    let within = parts.and_then(|parts| parts["pieces"].as_array_mut()).expect("parts for a tassel");
    match within.last() {
        Some(last) if last["piece"] == "split" => hang_at_parts(within, length),
        _ => within.push(json!({ "piece": "tassel", "length_mm": length })),
    }
}

/// The first length that is said, in millimeters.
fn length(text: &str) -> f64 {
    let words: Vec<&str> = text.split([' ', ',', '.']).collect();
    let at = text.find(" cm").unwrap_or_else(|| panic!("how long? {text} {words:?}"));
    let amount = text[..at].rsplit(' ').next().unwrap();
    (amount.parse::<f64>().unwrap() * 100.0).round() / 10.0
}

/// Patterns with ends at random: the same ones each time.
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn below(&mut self, count: usize) -> usize {
        // A linear congruential generator with Knuth's constants (MMIX); its high bits are good.
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33).to_usize()) % count.max(1)
    }

    fn length(&mut self) -> String {
        format!("{} mm", 10 + self.below(90))
    }

    /// Some pieces of `strands` strands, each on its line.
    fn pieces(&mut self, strands: usize, may_split: bool, depth: usize) -> Vec<String> {
        (0..1 + self.below(3)).map(|_| self.piece(strands, may_split, depth)).collect()
    }

    fn piece(&mut self, strands: usize, may_split: bool, depth: usize) -> String {
        match self.below(7) {
            0 if strands >= 3 => {
                let bundles = 3 + self.below(strands.min(8) - 2);
                format!("plait {bundles} for {}", self.length())
            }
            1 if strands >= 2 => format!("twist for {}", self.length()),
            2 => format!("wrap rust {} turns", 1 + self.below(15)),
            3 | 4 if may_split && depth < 2 && strands >= 2 => {
                let parts = 2 + self.below(strands.min(4) - 1);
                let inner = self.pieces(strands / parts, may_split, depth + 1);
                format!("split {parts} {{\n{}\n}}", inner.join("\n"))
            }
            5 => ["bead float", "bead cork"][self.below(2)].to_owned(),
            _ => "knot".to_owned(),
        }
    }

    /// A pattern of strands of one thread; not all that comes up can be made.
    pub(crate) fn pattern(&mut self) -> String {
        let is_folded = self.below(3) == 0;
        let strands = if is_folded { 4 + 2 * self.below(5) } else { 3 + self.below(10) };
        let mut begin = self.pieces(strands, !is_folded, 0);
        match self.below(3) {
            0 if is_folded => begin.insert(0, format!("loop {}", self.length())),
            1 if !is_folded => begin.insert(0, format!("tassel {}", self.length())),
            2 if !is_folded => begin.insert(0, format!("loop {}", self.length())),
            _ => {}
        }
        let mut finish = self.pieces(strands, true, 0);
        match self.below(4) {
            0 | 1 => finish.push(format!("tassel {}", self.length())),
            2 => {
                let inner = ["", "knot\n", "split 2 {\nknot\n"][self.below(3)];
                let close = if inner.starts_with("split") { "\n}" } else { "" };
                finish.push(format!("split 2 {{\n{inner}tassel {}{close}\n}}", self.length()));
            }
            _ => {}
        }
        match self.below(5) {
            0 => finish.push("closing knot".to_owned()),
            1 => finish.push(format!("slide rust {} turns", 1 + self.below(9))),
            _ => {}
        }
        let start = if is_folded { "start folded pairs side-by-side\n" } else { "" };
        format!(
            "pattern \"Moorings\"\nthread kelp #1f5d50\nthread rust #a8452c\n\
             bead float #f4efe6 12 mm hole 8 mm\nbead cork #b98a5a 14 mm hole 9 mm \"cork ball\"\n\
             strands {strands} kelp\n{start}sets 1\n\
             begin {{\n{}\n}}\nfinish {{\n{}\n}}\nset {{ take left 1: forward to edge }}\n",
            begin.join("\n"),
            finish.join("\n")
        )
    }
}
