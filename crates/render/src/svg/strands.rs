//! The strands: a rim, the thread, its twist and its gloss, over a soft shadow that fills the gaps between knots.

use knotwright_numbers::ToNumber;
use std::collections::BTreeSet;

use knotwright_color::Rgb;

use crate::bead::Form;
use crate::path::Point;
use crate::scene::{Bead, Cord, Fade};

use super::Writer;
use super::gradient::Stop;
use super::knots::{SHADOW, rim_color};

/// A paint that fades towards both ends of the picture.
struct FadingPaint<'a> {
    color: &'a str,
    /// Where it is full, in percent.
    opacity: u32,
    /// How far from the top and from the bottom it begins to show.
    shows: Fade,
    /// How far from the top and from the bottom it is full.
    full: Fade,
}

impl Writer<'_> {
    /// Defines the lines and paints, and draws every strand.
    pub(super) fn strands(&mut self) {
        let scene = self.scene;
        self.xml.put("<defs>\n");
        self.paints();
        for (index, cord) in scene.cords.iter().enumerate() {
            self.line(index, cord);
        }
        self.xml.put("</defs>\n");
        self.shadow();
        self.ground();
        self.xml.put("<g fill=\"none\">\n");
        for (index, cord) in scene.cords.iter().enumerate() {
            self.strand(index, cord.thread);
        }
        self.xml.put("</g>\n");
        self.neck();
        self.ends();
    }

    fn line(&mut self, index: usize, cord: &Cord) {
        self.xml.begin("path", &format!("s{index}"));
        self.xml.put(" d=\"");
        self.xml.path(&cord.path);
        self.xml.put("\"/>\n");
    }

    fn paints(&mut self) {
        let scene = self.scene;
        let threads: BTreeSet<u16> = scene.cords.iter().map(|cord| cord.thread).collect();
        for thread in threads {
            let color = scene.color(thread);
            self.fading(&format!("c{thread}"), &color.to_string(), 100);
            self.fading(&format!("d{thread}"), &rim_color(color).to_string(), 100);
        }
        self.fading("twist", "#000", 10);
        self.fading("gloss", "#fff", 28);
        let fade = Fade { above: scene.fade.above.max(scene.cell.y), ..scene.fade };
        let (shows, full) = (fade.scaled(0.9), fade.scaled(1.1));
        self.fade("shade", &FadingPaint { color: SHADOW, opacity: 32, shows, full });
    }

    /// A paint that fades towards free ends.
    fn fading(&mut self, name: &str, color: &str, opacity: u32) {
        let (shows, full) = (self.scene.fade.scaled(0.12), self.scene.fade.scaled(0.8));
        self.fade(name, &FadingPaint { color, opacity, shows, full });
    }

    fn fade(&mut self, name: &str, paint: &FadingPaint<'_>) {
        let height = self.scene.size.y;
        let place = |y: f64| (y / height * 1e6).round().clamp(0.0, 1e6).to_u32();
        let &FadingPaint { color, opacity, .. } = paint;
        let (begin, full) = (place(paint.shows.above), place(paint.full.above));
        let (last, end) = (place(height - paint.full.below), place(height - paint.shows.below));
        let all: [Stop<'_>; 4] =
            [(begin, color, 0), (full, color, opacity), (last, color, opacity), (end, color, 0)];
        let stops = if full == 0 { &all[1..] } else { &all[..] };
        self.gradient(name, Point::default(), Point::new(0.0, height), stops);
    }

    fn shadow(&mut self) {
        let prefix = self.xml.prefix().to_owned();
        self.xml.add(format_args!("<g fill=\"none\" stroke=\"url(#{prefix}shade)\""));
        self.xml.numbers(&[("stroke-width", self.scene.thickness * 1.25)]);
        self.xml.put(">\n");
        for index in 0..self.scene.cords.len() {
            self.xml.add(format_args!("<use href=\"#{prefix}s{index}\"/>\n"));
        }
        self.xml.put("</g>\n");
    }

    /// A dark behind knots that lie close, so that no light falls through the small gaps inside the band.
    fn ground(&mut self) {
        let scene = self.scene;
        self.xml.add(format_args!("<path fill=\"none\" stroke=\"{SHADOW}\" stroke-opacity=\".7\""));
        self.xml.numbers(&[("stroke-width", scene.thickness)]);
        self.xml.put(" d=\"");
        for (from, to) in closed(&scene.beads) {
            self.xml.put("M");
            self.xml.number(from.x);
            self.xml.put(" ");
            self.xml.number(from.y);
            self.xml.put("H");
            self.xml.number(to.x);
        }
        self.xml.put("\"/>\n");
    }

    fn strand(&mut self, index: usize, thread: u16) {
        let thickness = self.scene.thickness;
        self.stroke(index, &format!("d{thread}"), &[("stroke-width", thickness * 0.98)]);
        self.stroke(index, &format!("c{thread}"), &[("stroke-width", thickness * 0.86)]);
        self.twist(index, thickness);
        self.stroke(index, "gloss", &[("stroke-width", thickness * 0.22), ("x", -thickness * 0.14)]);
    }

    fn stroke(&mut self, index: usize, paint: &str, numbers: &[(&str, f64)]) {
        let prefix = self.xml.prefix().to_owned();
        self.xml.add(format_args!("<use href=\"#{prefix}s{index}\" stroke=\"url(#{prefix}{paint})\""));
        self.xml.numbers(numbers);
        self.xml.put("/>\n");
    }

    fn twist(&mut self, index: usize, thickness: f64) {
        let dash = format!("{:.2} {:.2}", thickness * 0.06, thickness * 0.26);
        let prefix = self.xml.prefix().to_owned();
        self.xml.add(format_args!("<use href=\"#{prefix}s{index}\" stroke=\"url(#{prefix}twist)\""));
        self.xml.numbers(&[("stroke-width", thickness * 0.86)]);
        self.xml.add(format_args!(" stroke-dasharray=\"{dash}\"/>\n"));
    }

    /// The thread wound around a loop.
    fn neck(&mut self) {
        let Some(neck) = self.scene.neck else { return };
        self.xml.put("<defs>\n");
        self.symbol("n", &crate::bead::place_binding(neck.half));
        self.xml.put("</defs>\n");
        let prefix = self.xml.prefix().to_owned();
        let color: Rgb = self.scene.color(neck.thread);
        self.xml
            .add(format_args!("<use href=\"#{prefix}n\" fill=\"{color}\" color=\"{}\"", rim_color(color)));
        self.xml.numbers(&[("x", neck.middle.x), ("y", neck.middle.y)]);
        self.xml.put("/>\n");
    }
}

/// The first and the last knot of every run of a row that lets no light through: knots side by side, with others
/// between them above and below.
fn closed(beads: &[Bead]) -> Vec<(Point, Point)> {
    let there: BTreeSet<(u32, u8)> = beads.iter().map(|bead| (bead.row, bead.gap)).collect();
    let held =
        |row: u32, gap: u8| row > 0 && there.contains(&(row - 1, gap)) && there.contains(&(row + 1, gap));
    let closes = |a: &&Bead, b: &&Bead| {
        a.row == b.row && (b.gap <= a.gap + 1 || b.gap == a.gap + 2 && held(a.row, a.gap + 1))
    };
    let mut sorted: Vec<&Bead> = beads.iter().filter(|bead| bead.form != Form::Wished).collect();
    sorted.sort_by_key(|bead| (bead.row, bead.gap));
    let ends = |run: &[&Bead]| Some((run.first()?.middle, run.last()?.middle));
    sorted.chunk_by(closes).filter(|run| run.len() > 1).filter_map(ends).collect()
}
