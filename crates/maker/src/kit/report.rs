//! A kit for a person with a list and scissors: what is reported, however it is laid out.

use super::span::{in_hours, on_counter};
use super::{Bought, CueMoment, CutAtColor, Difficulty, Kit, KitBand};
use crate::lengths::LengthUnit;
use crate::measured::{ReportTable, cut_rows, describe_basis, describe_size, meters};
use crate::{USUAL_SKEIN, escape_markdown};
use knotwright_band::Kind;
use knotwright_band::pace::TimeSpan;
use knotwright_checker::USUAL_LANGUAGE;
use knotwright_color::Eyes;
use knotwright_numbers::ToNumber;
use knotwright_wording::both;
use knotwright_wording::digits::count;

/// What is reported of a kit. Text of the patterns is in it unchanged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KitReport {
    /// How many bands it is for, and which.
    pub title: String,
    /// What to buy, then each band.
    pub sections: Vec<KitSection>,
    /// Whom it is not for.
    pub caution: String,
}

/// A part of the report.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KitSection {
    /// Its heading.
    pub title: String,
    /// A sentence a line, above the tables.
    pub head: Vec<String>,
    /// Its tables.
    pub tables: Vec<ReportTable>,
}

const CAUTION: &str = "Not for children under three: threads and cut ends can be swallowed. Give no kit for a band that is \
                       tied around a neck.";

/// What fits into a cylinder of 31.7 mm is a small part (EN 71-1, 8.2; 16 CFR 1501.4). In millimeters.
const SMALL_PART: f64 = 31.7;

const BEAD_CAUTION: &str =
    " The beads are small parts: a child can choke on them, and they can come loose in time.";

/// What is reported of a kit.
pub fn report_kit(kit: &Kit, unit: LengthUnit) -> KitReport {
    let bands = kit.bands.iter().map(|band| section(kit, band, unit));
    KitReport {
        title: title(kit),
        sections: std::iter::once(shopping(kit, unit)).chain(bands).collect(),
        caution: caution(kit),
    }
}

impl KitReport {
    /// As Markdown.
    pub fn markdown(&self) -> String {
        let mut parts = vec![format!("# {}", escape_markdown(&self.title))];
        for section in &self.sections {
            parts.push(format!("## {}", escape_markdown(&section.title)));
            parts.extend(section.head.iter().map(|line| escape_markdown(line)));
            for table in &section.tables {
                parts.extend(table.caption.map(escape_markdown));
                parts.push(table.markdown());
            }
        }
        parts.push(escape_markdown(&self.caution));
        parts.join("\n\n") + "\n"
    }
}

fn caution(kit: &Kit) -> String {
    let has_small = kit.beads.iter().any(|of| of.bead.across < SMALL_PART);
    format!("{CAUTION}{}", if has_small { BEAD_CAUTION } else { "" })
}

fn title(kit: &Kit) -> String {
    let name = |band: &KitBand| band.measured.pattern.title.in_language(USUAL_LANGUAGE).to_owned();
    let names: Vec<String> = kit.bands.iter().map(name).collect();
    let bands = count(kit.options.count.into(), "band");
    match &names[..] {
        [name] => format!("Kit for {bands}: {name}"),
        _ => format!("Kit for {bands} of each of {} patterns: {}", names.len(), names.join(", ")),
    }
}

fn shopping(kit: &Kit, unit: LengthUnit) -> KitSection {
    let (skein, assumed) = kit.skein();
    let otherwise = match assumed {
        true => " (common practice, no source; if yours are longer or shorter, use `--skein`)",
        false => "",
    };
    let mut head = vec![format!(
        "Thread is bought in skeins of {}{otherwise}. Cut the longest pieces first: then they come from as many skeins as \
         stand here. However you cut, it takes at least as many as stand beside that.",
        meters(if skein > 0.0 { skein } else { USUAL_SKEIN })
    )];
    if is_weighed(kit) {
        let thread = match kit.density() {
            Some(density) => format!("of {} tex, which are grams in a kilometer (ISO 1144)", density.tex),
            None => "as heavy as each pattern says".to_owned(),
        };
        head.push(format!("Weights are those of the pieces, for thread {thread}."));
    }
    for (of, at) in kit.bought.iter().filter_map(|of| Some((of, of.repeat?))) {
        head.push(cut_at_color(of, at, skein, unit));
    }
    for of in kit.bought.iter().filter(|of| of.skeins.too_long > 0) {
        let (pieces, verb) = match of.skeins.too_long {
            1 => ("One piece".to_owned(), "is"),
            many => (format!("{many} pieces"), "are"),
        };
        head.push(format!(
            "{pieces} of {} {verb} longer than a skein and not counted: look for longer skeins, or tie fewer sets.",
            of.thread.name
        ));
    }
    KitSection {
        title: "What to buy".to_owned(),
        head,
        tables: std::iter::once(bought(kit, unit)).chain(beads(kit)).collect(),
    }
}

/// Where pieces of a thread that changes color are cut, and what a skein gives then.
fn cut_at_color(of: &Bought, at: CutAtColor, skein: f64, unit: LengthUnit) -> String {
    let what = if at.is_folded {
        "is folded where its first color begins: measure half of it to each side of such a place"
    } else {
        "begins where its first color begins: cut there"
    };
    let kind = if at.is_folded { "thread" } else { "piece" };
    format!(
        "Every {kind} of {} {what}, and leave what lies between. That color, {}, comes round every {}, so a skein of {} that \
         begins with it gives {} of {}; one that begins elsewhere may give one less. The skeins are counted so.",
        of.thread.name,
        of.thread.color,
        unit.finished(at.every).replace(".0 ", " "),
        meters(skein),
        count(at.from_skein, kind),
        unit.cut(at.piece)
    )
}

fn bought(kit: &Kit, unit: LengthUnit) -> ReportTable {
    let options = &kit.options;
    let mut head =
        ["thread", "color", "label", "pieces", "in all", "skeins", "at least"].map(str::to_owned).to_vec();
    head.extend(is_weighed(kit).then(|| "weight".to_owned()));
    head.extend(options.price.map(|_| "cost".to_owned()));
    let mut rows = vec![head];
    let weight = |grams: Option<f64>| {
        is_weighed(kit).then(|| grams.map(|grams| format!("{grams:.1} g")).unwrap_or_default())
    };
    let cost = |cost: Option<f64>| cost.map(|cost| format!("{cost:.2}"));
    for of in &kit.bought {
        let mut row = vec![
            of.thread.name.to_string(),
            of.thread.color.to_string(),
            of.label.clone().unwrap_or_default(),
            of.pieces.to_string(),
            unit.bought(of.length),
            of.skeins.skeins.to_string(),
            of.skeins.at_least.to_string(),
        ];
        row.extend(weight(of.grams));
        row.extend(cost(of.cost));
        rows.push(row);
    }
    let total = kit.total();
    let mut last = ["in all", "", "", ""].map(str::to_owned).to_vec();
    last.extend([unit.bought(total.length), total.skeins.to_string(), total.at_least.to_string()]);
    last.extend(weight(total.grams));
    last.extend(cost(total.cost));
    rows.push(last);
    ReportTable { caption: None, rows, words: &[0, 1, 2] }
}

/// Whether it is known of some thread how heavy it is.
fn is_weighed(kit: &Kit) -> bool {
    kit.bought.iter().any(|of| of.grams.is_some())
}

fn beads(kit: &Kit) -> Option<ReportTable> {
    let mut rows = vec![["bead", "color", "label", "size", "hole", "in all"].map(str::to_owned).to_vec()];
    let size = |millimeters: f64| format!("{} mm", (millimeters * 10.0).round() / 10.0);
    rows.extend(kit.beads.iter().map(|of| {
        vec![
            of.bead.look.name.to_string(),
            of.bead.look.color.to_string(),
            of.label.clone().unwrap_or_default(),
            size(of.bead.across),
            size(of.bead.hole),
            of.count.to_string(),
        ]
    }));
    let caption = Some("Beads, without spare ones:");
    (!kit.beads.is_empty()).then_some(ReportTable { caption, rows, words: &[0, 1, 2] })
}

fn section(kit: &Kit, band: &KitBand, unit: LengthUnit) -> KitSection {
    let pattern = band.measured.pattern;
    let head = vec![
        format!("{}.", describe_size(&band.measured, unit)),
        describe_basis(&band.measured, crate::Medium::Terminal),
        time(band),
        pace(kit),
        difficulty(&band.difficulty),
    ];
    let cut = ReportTable { caption: Some("To cut for one band:"), ..cut_rows(&band.measured, unit) };
    KitSection {
        title: pattern.title.in_language(USUAL_LANGUAGE).to_owned(),
        head,
        tables: vec![cut, cues(band)],
    }
}

fn time(band: &KitBand) -> String {
    let TimeSpan { low, likely, high } = band.time.whole();
    let work = band.time.work;
    format!(
        "One band takes about {} ({} to {}){}: {} to cut, fasten and close, then {}, {} of them turning knots, with {}.",
        in_hours(likely),
        in_hours(low),
        in_hours(high),
        left_out(band),
        in_hours(band.time.set_up.likely),
        count(work.knots, "knot"),
        work.turning,
        count(work.pick_ups, "pick-up")
    )
}

/// What the band has that no time is taken for.
fn left_out(band: &KitBand) -> String {
    let measured = &band.measured;
    let made = &measured.pattern.made;
    let left_out = [
        ("beads", measured.bead_counts().next().is_some()),
        ("joins", !measured.joined.is_empty()),
        ("what is made at the ends", made.begin.is_some() || made.finish.is_some()),
    ];
    let left_out: Vec<String> =
        left_out.into_iter().filter(|(_, is_there)| *is_there).map(|(what, _)| what.to_owned()).collect();
    if left_out.is_empty() { String::new() } else { format!(", without {}", both(&left_out)) }
}

fn pace(kit: &Kit) -> String {
    let fitted = kit.options.pace;
    let figures = format!(
        "{:.1} s for a knot, {:.1} s more for a turning knot, {:.1} s to take a strand in hand",
        fitted.pace.knot, fitted.pace.turning, fitted.pace.pick_up
    );
    match fitted.is_measured() {
        true => format!(
            "Your times come to {figures}; 19 of 20 bands take a time between the two. Cutting, fastening and closing are \
             taken to be 45 s for each strand (common practice, no source)."
        ),
        false => format!(
            "Taken for that: {figures}, and 45 s to cut, fasten and close each strand; somebody else may be half as fast \
             again, or slower by as much (common practice, no source). For your own, use `--pace` or `--times`."
        ),
    }
}

fn difficulty(of: &Difficulty) -> String {
    let kinds: Vec<&str> = of.kinds.iter().map(|kind| name(*kind)).collect();
    let mut facts = vec![
        format!("{} of {}", count(of.strands.to_u64(), "strand"), count(of.threads.to_u64(), "thread")),
        match kinds.len() {
            0 => "no knots".to_owned(),
            _ => format!("{} knots", both(&kinds)),
        },
        format!("at most {} before a strand is let go", count(of.longest_run, "knot")),
    ];
    match of.pick_ups {
        Some((written, fewest)) if fewest < written => facts.push(format!(
            "{} in a set ({fewest} would do: see `knotwright plan`)",
            count(written, "pick-up")
        )),
        Some((written, _)) => facts.push(format!("{} in a set", count(written, "pick-up"))),
        None => {}
    }
    for (one, other, eyes) in &of.alike {
        facts.push(format!("{one} and {other} are hard to tell apart{}", whom(*eyes)));
    }
    format!("How hard it is: {}.", facts.join("; "))
}

fn name(kind: Kind) -> &'static str {
    match kind {
        Kind::Forward => "forward",
        Kind::Backward => "backward",
        Kind::ForwardBackward => "forward-backward",
        Kind::BackwardForward => "backward-forward",
    }
}

fn whom(eyes: Eyes) -> &'static str {
    match eyes {
        Eyes::Ordinary => "",
        Eyes::Protan => " for eyes without red cones",
        Eyes::Deutan => " for eyes without green cones",
        Eyes::Tritan => " for eyes without blue cones",
    }
}

fn cues(band: &KitBand) -> ReportTable {
    let mut rows = vec![["time", "knots", "begins"].map(str::to_owned).to_vec()];
    for cue in &band.cues {
        rows.push(vec![on_counter(cue.at), cue.knots.to_string(), cue.moment.said()]);
    }
    ReportTable { caption: Some("When each part begins:"), rows, words: &[2] }
}

impl CueMoment {
    /// In words.
    pub fn said(self) -> String {
        match self {
            Self::SetUp => "cutting and fastening".to_owned(),
            Self::Opening => "the opening".to_owned(),
            Self::Set(number) => format!("set {number}"),
            Self::Closing => "the closing".to_owned(),
            Self::Tied => "closing the ends".to_owned(),
        }
    }
}
