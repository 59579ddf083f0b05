//! A band as numbers for the page.

use crate::changes::{Sent, SentKnot, SentKnots};
use crate::chart::chart;
use crate::message::{
    AsideMessage, BandFrame, BandMessage, BeadMessage, ChartMessage, PartLetter, PartMessage,
};
use knotwright_numbers::ToNumber;
use knotwright_render::{
    self as render, AsideKind, Form, Scene, TyingScript, cut_stencils, list_asides, rim_of,
};
use knotwright_wording::without_hidden;
use std::collections::HashMap;
use std::sync::Arc;

/// What a page knows of bands.
#[derive(Debug, Default)]
pub(crate) struct BandTeller {
    sent: Sent,
    frame: Option<BandFrame>,
    chart: Option<ChartMessage>,
}

impl BandTeller {
    /// The band, as far as it is news, and its chart if that is wished for.
    pub(crate) fn band(&mut self, script: &TyingScript, charted: bool) -> BandMessage {
        let band = script.band();
        let scene = Scene::of(&band);
        let kinds = kinds(script);
        let (knots, first_rows) = pieces(&scene, kinds.len());
        let (names, pieces) = self.sent.send(knots);
        let (asides, sentences) = asides(script, &kinds);
        let parts = kinds.into_iter().zip(names).zip(first_rows);
        let frame = frame(&band, &scene);
        let is_news = self.frame.as_ref() != Some(&frame);
        self.frame = Some(frame.clone());
        let chart = charted.then(|| chart(script)).filter(|chart| self.chart.as_ref() != Some(chart));
        self.chart = if charted { chart.clone().or(self.chart.take()) } else { None };
        BandMessage {
            title: without_hidden(&script.title),
            strands: script.strands.clone(),
            rows: scene.rows,
            sets: script.times,
            parts: parts
                .map(|(((kind, number), piece), row)| PartMessage { kind, number, row, piece })
                .collect(),
            pieces,
            beads: beads(&scene, band.strands.len()),
            asides,
            sentences,
            frame: is_news.then_some(frame),
            chart,
        }
    }
}

/// What is tied one after another.
fn kinds(script: &TyingScript) -> Vec<(PartLetter, u64)> {
    let opening = script.opening.iter().map(|_| ('o', 1));
    let sets = (1..=script.times).map(|number| ('s', number));
    let closing = script.closing.iter().map(|_| ('c', 1));
    opening.chain(sets).chain(closing).collect()
}

/// By part, its knots, their rows counted from its own first; and that row.
fn pieces(scene: &Scene, parts: usize) -> (Vec<SentKnots>, Vec<u32>) {
    let mut pieces = Vec::with_capacity(parts);
    let mut rows = Vec::with_capacity(parts);
    let mut rest = scene.beads.as_slice();
    for part in 0..parts {
        let count = rest.iter().take_while(|bead| bead.part.to_usize() == part).count();
        let (here, after) = rest.split_at(count);
        rest = after;
        let first = here.iter().map(|bead| bead.row).min().unwrap_or(0);
        let knot = |bead: &render::Bead| -> SentKnot {
            [bead.row - first, bead.gap.into(), form(bead.form), bead.thread.into(), bead.step]
        };
        pieces.push(Arc::new(here.iter().map(knot).collect()));
        rows.push(first);
    }
    (pieces, rows)
}

/// The beads of the whole band, the ends included.
fn beads(scene: &Scene, strands: usize) -> Vec<BeadMessage> {
    let left = (scene.size.x - (strands.to_f64() - 1.0) * scene.cell.x) / 2.0;
    let bead = |bead: &render::ThreadedBead| {
        let color = scene.bead_color(bead.bead);
        BeadMessage {
            at: [(bead.middle.x - left) / scene.cell.x, (bead.middle.y - scene.top) / scene.cell.y],
            radius: bead.radius,
            color: color.to_string(),
            rim: rim(color),
            after: bead.after,
            step: (bead.part != u32::MAX).then_some([bead.part, bead.step]),
        }
    };
    scene.threaded.iter().map(bead).collect()
}

/// What is done between the knots, and the sentences for it: they come again in every set.
fn asides(script: &TyingScript, kinds: &[(PartLetter, u64)]) -> (Vec<AsideMessage>, Vec<String>) {
    let mut numbers: HashMap<String, usize> = HashMap::new();
    let mut sentences = Vec::new();
    let mut asides = Vec::new();
    for render::Aside { part, after, kind, says, positions, thread } in list_asides(script) {
        let Some((letter, _)) = kinds.get(part.to_usize()) else { continue };
        let name = match kind {
            AsideKind::Bead(step) => (*letter, step),
            AsideKind::Join(join) => (letter.to_ascii_uppercase(), join),
        };
        let says = *numbers.entry(says).or_insert_with_key(|says| {
            sentences.push(without_hidden(says));
            sentences.len() - 1
        });
        let positions = [positions.start, positions.end];
        asides.push(AsideMessage { part, after, name, says, positions, thread });
    }
    (asides, sentences)
}

fn form(form: Form) -> u32 {
    (0..).zip(Form::ALL).find(|(_, known)| *known == form).map_or(0, |(number, _)| number)
}

/// What surrounds the knots: the same strands with nothing tied.
fn frame(band: &render::Band<'_>, whole: &Scene) -> BandFrame {
    let bare = render::Band { parts: Vec::new(), title: String::new(), ..band.clone() };
    let scene = Scene::of(&bare);
    let stencils = cut_stencils(scene.cell, scene.thickness);
    let strands = band.strands.len();
    let half = stencils.first().map(|stencil| stencil.half).unwrap_or_default();
    // The band hangs in the middle of the picture.
    let left = (scene.size.x - (strands.to_f64() - 1.0) * scene.cell.x) / 2.0;
    BandFrame {
        cell: [scene.cell.x, scene.cell.y],
        corner: [left, scene.top],
        size: [scene.size.x, scene.size.y],
        fade: [scene.fade.above, scene.fade.below],
        thickness: scene.thickness,
        cords: scene.cords.iter().map(|cord| (cord.thread, cord.path.svg())).collect(),
        neck: scene
            .neck
            .map(|neck| ([neck.middle.x, neck.middle.y], [neck.half.x, neck.half.y], neck.thread)),
        ends: ends(whole),
        stencils: stencils.into_iter().map(|stencil| stencil.svg).collect(),
        half: [half.x, half.y],
    }
}

/// What is made of the strands above the knots, and below them: there as if nothing were tied.
fn ends(scene: &Scene) -> [Vec<(u16, String, bool)>; 2] {
    let down = f64::from(scene.rows) * scene.cell.y;
    let lines = |cords: &[render::EndCord], by: f64| {
        cords.iter().map(|cord| (cord.thread, cord.path.lowered(by).svg(), cord.is_turn)).collect()
    };
    let [above, below] = &scene.ends;
    [lines(above, 0.0), lines(below, -down)]
}

/// The color of a rim around `color`.
pub(crate) fn rim(color: knotwright_color::Rgb) -> String {
    rim_of(color).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use knotwright_checker::{NoLibrary, Settings, Source, check};
    use knotwright_maker::scripted_to_see;

    /// The page hangs what is below the knots under however many rows there are.
    #[test]
    fn the_ends_come_with_what_surrounds_the_knots() {
        let text = "pattern \"Reeds\"\nthread mud tan\nthread sky lightblue\nstrands 4 mud\nbegin { plait 3 for 2 cm }\n\
                    finish { wrap sky 5 turns }\nset { take left 1: forward to edge }\n";
        let report = check(Arc::new(Source::new("reeds.knot", text)), &NoLibrary, &Settings::default());
        let pattern = report.pattern.unwrap();
        let frame = |sets| {
            let script = scripted_to_see(&pattern, Some(sets), None).unwrap();
            let message = BandTeller::default().band(&script, true);
            assert!(!message.chart.unwrap().ends.is_empty(), "the chart has them, too");
            message.frame.unwrap()
        };
        let [above, below] = frame(1).ends;
        assert!(above.len() > 10 && above.iter().all(|(thread, ..)| *thread == 0));
        let turns: Vec<u16> =
            below.iter().filter(|(.., is_turn)| *is_turn).map(|(thread, ..)| *thread).collect();
        assert_eq!(turns, [1; 5]);
        assert_eq!(frame(9).ends[1].len(), below.len());
    }

    /// In the second set other colors hang there; a strand that is joined in that set alone is not in the first.
    #[test]
    fn what_is_done_between_the_knots_comes_in_the_order_of_tying() {
        let text = "pattern \"Quay\"\nthread mud tan\nthread sky lightblue\nbead pearl white 4 mm hole 2 mm\n\
                    strands sky 3 mud\nsets 2\nset {\n  take left 1: forward 3\n  join right 2 in set 2\n  \
                    bead pearl on right 1, right 2\n  take left 1: forward 2\n}\n";
        let report = check(Arc::new(Source::new("quay.knot", text)), &NoLibrary, &Settings::default());
        let script = scripted_to_see(report.pattern.as_ref().unwrap(), None, None).unwrap();
        let BandMessage { asides, sentences, .. } = BandTeller::default().band(&script, false);
        let found: Vec<_> =
            asides.iter().map(|aside| (aside.part, aside.after, aside.name, aside.positions)).collect();
        assert_eq!(
            found,
            [(0, 3, ('s', 1), [2, 4]), (1, 3, ('S', 0), [2, 3]), (1, 3, ('s', 1), [2, 4])],
            "{asides:?}"
        );
        assert_eq!((asides[0].says, asides[2].says, sentences.len()), (0, 0, 2), "{sentences:?}");
        assert!(sentences[1].starts_with("Join the second strand from the right (sky)"), "{sentences:?}");
    }
}
