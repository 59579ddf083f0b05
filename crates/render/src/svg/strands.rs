//! The strands: a rim, the thread, its twist and its gloss, over a soft shadow that fills the gaps between knots.

use std::collections::BTreeSet;

use knotwright_color::Rgb;

use crate::path::Point;
use crate::scene::{Bead, Cord};
use crate::text::number;

use super::Writer;
use super::gradient::Stop;
use super::knots::{SHADOW, rim};

impl Writer<'_> {
    /// Defines the lines and paints, and draws every strand.
    pub(super) fn strands(&mut self) {
        let scene = self.scene;
        self.out.push_str("<defs>\n");
        self.paints();
        for (index, cord) in scene.cords.iter().enumerate() {
            self.line(index, cord);
        }
        self.out.push_str("</defs>\n");
        self.shadow();
        self.ground();
        self.out.push_str("<g fill=\"none\">\n");
        for (index, cord) in scene.cords.iter().enumerate() {
            self.strand(index, cord.thread);
        }
        self.out.push_str("</g>\n");
        self.neck();
    }

    fn line(&mut self, index: usize, cord: &Cord) {
        let prefix = self.prefix.clone();
        self.write(format_args!("<path id=\"{prefix}s{index}\" d=\""));
        cord.path.write(&mut self.out);
        self.out.push_str("\"/>\n");
    }

    fn paints(&mut self) {
        let scene = self.scene;
        let threads: BTreeSet<u16> = scene.cords.iter().map(|cord| cord.thread).collect();
        for thread in threads {
            let color = scene.color(thread);
            self.fading(&format!("c{thread}"), &color.to_string(), 100);
            self.fading(&format!("d{thread}"), &rim(color).to_string(), 100);
        }
        self.fading("twist", "#000", 10);
        self.fading("gloss", "#fff", 28);
        let (above, below) = (scene.fade.0.max(scene.cell.y), scene.fade.1);
        self.fade("shade", (above * 0.9, above * 1.1, below * 1.1, below * 0.9), SHADOW, 32);
    }

    /// A paint that fades towards free ends.
    fn fading(&mut self, name: &str, color: &str, opacity: u32) {
        let (above, below) = self.scene.fade;
        self.fade(name, (above * 0.12, above * 0.8, below * 0.8, below * 0.12), color, opacity);
    }

    /// A paint that begins and is full so far from the top, is full and ends so far from the bottom.
    fn fade(&mut self, name: &str, reach: (f64, f64, f64, f64), color: &str, opacity: u32) {
        let height = self.scene.size.y;
        let place = |y: f64| (y / height * 1e6).round().clamp(0.0, 1e6) as u32;
        let (begin, full) = (place(reach.0), place(reach.1));
        let (last, end) = (place(height - reach.2), place(height - reach.3));
        let all: [Stop<'_>; 4] =
            [(begin, color, 0), (full, color, opacity), (last, color, opacity), (end, color, 0)];
        let stops = if full == 0 { &all[1..] } else { &all[..] };
        self.gradient(name, Point::default(), Point::new(0.0, height), stops);
    }

    fn shadow(&mut self) {
        let prefix = self.prefix.clone();
        self.write(format_args!("<g fill=\"none\" stroke=\"url(#{prefix}shade)\""));
        self.numbers(&[("stroke-width", self.scene.thickness() * 1.25)]);
        self.out.push_str(">\n");
        for index in 0..self.scene.cords.len() {
            self.write(format_args!("<use href=\"#{prefix}s{index}\"/>\n"));
        }
        self.out.push_str("</g>\n");
    }

    /// A dark behind knots that lie close, so that no light falls through the small gaps inside the band.
    fn ground(&mut self) {
        let scene = self.scene;
        self.write(format_args!("<path fill=\"none\" stroke=\"{SHADOW}\" stroke-opacity=\".7\""));
        self.numbers(&[("stroke-width", scene.thickness())]);
        self.out.push_str(" d=\"");
        for (from, to) in closed(&scene.beads) {
            self.out.push('M');
            number(&mut self.out, from.x);
            self.out.push(' ');
            number(&mut self.out, from.y);
            self.out.push('H');
            number(&mut self.out, to.x);
        }
        self.out.push_str("\"/>\n");
    }

    fn strand(&mut self, index: usize, thread: u16) {
        let thickness = self.scene.thickness();
        self.stroke(index, &format!("d{thread}"), &[("stroke-width", thickness * 0.98)]);
        self.stroke(index, &format!("c{thread}"), &[("stroke-width", thickness * 0.86)]);
        self.twist(index, thickness);
        self.stroke(index, "gloss", &[("stroke-width", thickness * 0.22), ("x", -thickness * 0.14)]);
    }

    fn stroke(&mut self, index: usize, paint: &str, numbers: &[(&str, f64)]) {
        let prefix = self.prefix.clone();
        self.write(format_args!("<use href=\"#{prefix}s{index}\" stroke=\"url(#{prefix}{paint})\""));
        self.numbers(numbers);
        self.out.push_str("/>\n");
    }

    fn twist(&mut self, index: usize, thickness: f64) {
        let dash = format!("{:.2} {:.2}", thickness * 0.06, thickness * 0.26);
        let prefix = self.prefix.clone();
        self.write(format_args!("<use href=\"#{prefix}s{index}\" stroke=\"url(#{prefix}twist)\""));
        self.numbers(&[("stroke-width", thickness * 0.86)]);
        self.write(format_args!(" stroke-dasharray=\"{dash}\"/>\n"));
    }

    /// The thread wound around a loop.
    fn neck(&mut self) {
        let Some(neck) = self.scene.neck else { return };
        self.out.push_str("<defs>\n");
        self.symbol("n", &crate::bead::binding(neck.half));
        self.out.push_str("</defs>\n");
        let prefix = self.prefix.clone();
        let color: Rgb = self.scene.color(neck.thread);
        self.write(format_args!("<use href=\"#{prefix}n\" fill=\"{color}\" color=\"{}\"", rim(color)));
        self.place(neck.middle);
        self.out.push_str("/>\n");
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
    let mut sorted: Vec<&Bead> = beads.iter().collect();
    sorted.sort_by_key(|bead| (bead.row, bead.gap));
    let ends = |run: &[&Bead]| Some((run.first()?.middle, run.last()?.middle));
    sorted.chunk_by(closes).filter(|run| run.len() > 1).filter_map(ends).collect()
}
