//! Contrast as WCAG 2.2 defines it.

use palette::color_difference::Wcag21RelativeContrast;

use crate::Rgb;

impl Rgb {
    /// Relative luminance (WCAG 2.2), 0 for black to 1 for white.
    pub fn luminance(self) -> f64 {
        self.encoded().into_format::<f64>().relative_luminance().luma
    }

    /// Contrast ratio (WCAG 2.2): `(lighter + 0.05) / (darker + 0.05)`, 1 to 21.
    pub fn contrast(self, other: Self) -> f64 {
        self.encoded().into_format::<f64>().relative_contrast(other.encoded().into_format())
    }

    /// The ink, black or white, that reads better on this color.
    pub fn ink(self) -> Self {
        if self.contrast(Self::BLACK) >= self.contrast(Self::WHITE) { Self::BLACK } else { Self::WHITE }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// WCAG 2.2, "relative luminance" and "contrast ratio". The values of the two grays are the well-known pair on
    /// either side of 4.5; 21 follows from the formula, 1.05 / 0.05.
    #[test]
    fn contrast_of_wcag() {
        let on_white = |gray| Rgb::new(gray, gray, gray).contrast(Rgb::WHITE);
        assert!((on_white(0x77) - 4.4781).abs() < 5e-5, "{}", on_white(0x77));
        assert!((on_white(0x76) - 4.5422).abs() < 5e-5, "{}", on_white(0x76));
        assert!((on_white(0) - 21.0).abs() < 1e-9);
        assert!((on_white(255) - 1.0).abs() < 1e-9);
    }

    /// WCAG 2.2: L = 0.2126 R + 0.7152 G + 0.0722 B in linear light.
    #[test]
    fn luminance_of_the_primaries() {
        let primaries = [((255, 0, 0), 0.2126), ((0, 255, 0), 0.7152), ((0, 0, 255), 0.0722)];
        for ((red, green, blue), luminance) in primaries {
            assert!((Rgb::new(red, green, blue).luminance() - luminance).abs() < 1e-4);
        }
    }

    #[test]
    fn ink_is_the_better_of_the_two() {
        assert_eq!(Rgb::new(0xff, 0xd7, 0).ink(), Rgb::BLACK);
        assert_eq!(Rgb::new(0, 0, 0x80).ink(), Rgb::WHITE);
        // Of all grays the worst still reads at sqrt(21) = 4.58, the geometric mean of the two contrasts.
        for gray in 0..=255 {
            let ground = Rgb::new(gray, gray, gray);
            assert!(ground.contrast(ground.ink()) >= 4.5);
        }
    }
}
