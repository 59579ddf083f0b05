//! What a person calls a color: a hue and how light it is.
//!
//! Hues and lightness are those of Oklab in polar form (B. Ottosson, A perceptual color space for image processing, 2020).
//! Where one name ends and the next begins is our own choice, no source: names of CSS that say both are in the tests.

use crate::Rgb;
use palette::{IntoColor, Oklch};

/// A hue as it is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Hue {
    /// Without a hue, from light to dark.
    White,
    /// Between the two.
    Gray,
    /// The darkest.
    Black,
    /// From the rainbow and beside it.
    Red,
    /// Between red and yellow.
    Orange,
    /// A dark orange, or a dull one.
    Brown,
    /// The lightest of all.
    Yellow,
    /// Of leaves.
    Green,
    /// Between green and blue.
    Turquoise,
    /// Of the sky.
    Blue,
    /// Between blue and red.
    Purple,
    /// A light red, or one that leans to purple.
    Pink,
}

/// How light it is beside what one thinks of at the name of its hue.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Tone {
    /// Almost white.
    Pale,
    /// Lighter.
    Light,
    /// As it is called.
    Plain,
    /// Darker.
    Dark,
}

impl Rgb {
    /// What a person calls it.
    pub fn described(self) -> (Tone, Hue) {
        let seen: Oklch<f64> = self.encoded().into_linear::<f64>().into_color();
        let (light, strength) = (seen.l, seen.chroma);
        let hue = hue_of(light, strength, seen.hue.into_positive_degrees());
        (tone_of(hue, light), hue)
    }
}

fn hue_of(light: f64, strength: f64, degrees: f64) -> Hue {
    // A hint of a hue is seen only where there is much light.
    if strength < if light > 0.88 { 0.015 } else { 0.025 } {
        return match light {
            light if light > 0.93 => Hue::White,
            light if light < 0.26 => Hue::Black,
            _ => Hue::Gray,
        };
    }
    if light < 0.16 {
        return Hue::Black;
    }
    let is_dull = strength < 0.09 && light <= 0.88;
    match degrees {
        degrees if !(15.0..345.0).contains(&degrees) => {
            if light < 0.6 {
                Hue::Red
            } else {
                Hue::Pink
            }
        }
        degrees if degrees < 40.0 => {
            if light < 0.72 {
                Hue::Red
            } else {
                Hue::Pink
            }
        }
        degrees if degrees < 82.0 => {
            if is_dull || light < 0.62 {
                Hue::Brown
            } else {
                Hue::Orange
            }
        }
        degrees if degrees < 118.0 => {
            if light < 0.5 && degrees < 100.0 {
                Hue::Brown
            } else {
                Hue::Yellow
            }
        }
        degrees if degrees < 165.0 => Hue::Green,
        degrees if degrees < 215.0 => Hue::Turquoise,
        degrees if degrees < 285.0 => Hue::Blue,
        degrees if degrees < 320.0 || light < 0.66 => Hue::Purple,
        _ => Hue::Pink,
    }
}

fn tone_of(hue: Hue, light: f64) -> Tone {
    // Below the first it is dark, from the second on light, and from the third on pale.
    let [dark, lighter, pale] = match hue {
        Hue::White | Hue::Black => return Tone::Plain,
        Hue::Gray => [0.48, 0.75, 0.97],
        Hue::Red => [0.45, 0.66, 0.9],
        Hue::Orange => [0.6, 0.8, 0.88],
        Hue::Brown => [0.4, 0.62, 0.88],
        Hue::Yellow => [0.7, 0.97, 0.98],
        Hue::Green => [0.5, 0.8, 0.92],
        Hue::Turquoise => [0.5, 0.85, 0.94],
        Hue::Blue => [0.4, 0.68, 0.88],
        Hue::Purple => [0.38, 0.64, 0.88],
        Hue::Pink => [0.6, 0.82, 0.92],
    };
    match light {
        light if light >= pale => Tone::Pale,
        light if light >= lighter => Tone::Light,
        light if light < dark => Tone::Dark,
        _ => Tone::Plain,
    }
}

#[cfg(test)]
mod tests {
    use super::{Hue, Tone};
    use crate::Rgb;

    /// CSS Color 4: names that say what the color looks like, and a few of things that everyone knows.
    #[test]
    fn colors_are_called_what_their_names_say() {
        let all = [
            ("white", Tone::Plain, Hue::White),
            ("black", Tone::Plain, Hue::Black),
            ("gray", Tone::Plain, Hue::Gray),
            ("lightgray", Tone::Light, Hue::Gray),
            ("dimgray", Tone::Plain, Hue::Gray),
            ("red", Tone::Plain, Hue::Red),
            ("darkred", Tone::Dark, Hue::Red),
            ("firebrick", Tone::Plain, Hue::Red),
            ("orange", Tone::Plain, Hue::Orange),
            ("saddlebrown", Tone::Plain, Hue::Brown),
            ("tan", Tone::Light, Hue::Brown),
            ("yellow", Tone::Plain, Hue::Yellow),
            ("gold", Tone::Plain, Hue::Yellow),
            ("green", Tone::Plain, Hue::Green),
            ("darkgreen", Tone::Dark, Hue::Green),
            ("lightgreen", Tone::Light, Hue::Green),
            ("palegreen", Tone::Light, Hue::Green),
            ("turquoise", Tone::Plain, Hue::Turquoise),
            ("darkturquoise", Tone::Plain, Hue::Turquoise),
            ("paleturquoise", Tone::Light, Hue::Turquoise),
            ("blue", Tone::Plain, Hue::Blue),
            ("navy", Tone::Dark, Hue::Blue),
            ("darkblue", Tone::Dark, Hue::Blue),
            ("steelblue", Tone::Plain, Hue::Blue),
            ("skyblue", Tone::Light, Hue::Blue),
            ("#dfe7f5", Tone::Pale, Hue::Blue),
            ("purple", Tone::Plain, Hue::Purple),
            ("indigo", Tone::Dark, Hue::Purple),
            ("mediumpurple", Tone::Plain, Hue::Purple),
            ("pink", Tone::Light, Hue::Pink),
            ("hotpink", Tone::Plain, Hue::Pink),
        ];
        for (name, tone, hue) in all {
            let color: Rgb = name.parse().unwrap();
            assert_eq!(color.described(), (tone, hue), "{name} {color}");
        }
    }

    /// In the order of the steps, no gray is lighter and then darker again.
    #[test]
    fn grays_go_from_black_to_white() {
        let mut found: Vec<(Tone, Hue)> =
            (0..=255).map(|level| Rgb::new(level, level, level).described()).collect();
        found.dedup();
        let gray = |tone| (tone, Hue::Gray);
        let (black, white) = ((Tone::Plain, Hue::Black), (Tone::Plain, Hue::White));
        assert_eq!(found, [black, gray(Tone::Dark), gray(Tone::Plain), gray(Tone::Light), white]);
    }
}
