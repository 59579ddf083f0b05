//! The colors of two patterns as numbers that mean the same in both. Two threads are one color if they look exactly
//! alike, whatever they are called.

use knotwright_checker::{Pattern, Shade};
use knotwright_color::Rgb;

/// Numbered colors.
#[derive(Debug)]
pub(crate) struct Palette {
    /// Each with the colors that follow on its thread, if it changes color.
    colors: Vec<(Rgb, Vec<Shade>)>,
    /// By band and thread, its color's number.
    of_threads: [Vec<u16>; 2],
    /// By color, what its thread is called: in the second, or else in the first.
    names: Vec<String>,
}

impl Palette {
    /// The colors of two patterns.
    pub(super) fn of(patterns: [&Pattern; 2]) -> Self {
        let mut palette =
            Self { colors: Vec::new(), of_threads: [Vec::new(), Vec::new()], names: Vec::new() };
        for (band, pattern) in patterns.into_iter().enumerate() {
            for thread in &pattern.threads {
                let mut known = (0..=u16::MAX).zip(&palette.colors);
                let look = (thread.color, thread.shades.clone());
                let known = known.find(|(_, known)| **known == look).map(|(number, _)| number);
                let number = known.unwrap_or_else(|| palette.count());
                if known.is_none() {
                    palette.colors.push(look);
                    palette.names.push(String::new());
                }
                palette.names[usize::from(number)] = thread.name.to_string();
                palette.of_threads[band].push(number);
            }
        }
        palette.tell_apart();
        palette
    }

    /// Two colors of one name are shown with the color, too.
    fn tell_apart(&mut self) {
        let names = self.names.clone();
        for (name, (color, _)) in self.names.iter_mut().zip(&self.colors) {
            if names.iter().filter(|other| *other == name).count() > 1 {
                *name = format!("{name} {color}");
            }
        }
    }

    /// Threads of a band as colors.
    pub(super) fn colors(&self, band: usize, threads: &[u16]) -> Vec<u16> {
        threads.iter().map(|&thread| self.color(band, thread)).collect()
    }

    /// The color of a thread of a band.
    pub(super) fn color(&self, band: usize, thread: u16) -> u16 {
        self.of_threads[band].get(usize::from(thread)).copied().unwrap_or(u16::MAX)
    }

    /// How many there are.
    pub(super) fn count(&self) -> u16 {
        u16::try_from(self.colors.len()).unwrap_or(u16::MAX)
    }

    /// What a color is called.
    pub(super) fn name(&self, color: u16) -> &str {
        self.names.get(usize::from(color)).map_or("", String::as_str)
    }
}
