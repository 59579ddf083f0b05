//! One color of thread.

use std::fmt;
use std::sync::LazyLock;

use palette::Srgb;

/// A color in sRGB (IEC 61966-2-1), eight bits a channel, opaque.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Rgb {
    /// Red, 0 to 255.
    pub red: u8,
    /// Green, 0 to 255.
    pub green: u8,
    /// Blue, 0 to 255.
    pub blue: u8,
}

impl Rgb {
    /// Black.
    pub const BLACK: Self = Self::new(0, 0, 0);
    /// White.
    pub const WHITE: Self = Self::new(255, 255, 255);

    /// A color from its three channels, each 0 to 255.
    pub const fn new(red: u8, green: u8, blue: u8) -> Self {
        Self { red, green, blue }
    }

    /// Part of the way from this color to another, in linear light; `share` is clamped to 0..1.
    pub fn toward(self, other: Self, share: f64) -> Self {
        let share = if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 };
        let (from, to) = (self.linear(), other.linear());
        Self::from_linear(std::array::from_fn(|channel| {
            from[channel] + (to[channel] - from[channel]) * share
        }))
    }

    pub(crate) fn encoded(self) -> Srgb<u8> {
        Srgb::new(self.red, self.green, self.blue)
    }

    pub(crate) fn linear(self) -> [f64; 3] {
        self.encoded().into_linear::<f64>().into()
    }

    /// From linear light, red, green, blue; what is out of gamut is clipped channel by channel.
    pub(crate) fn from_linear(light: [f64; 3]) -> Self {
        let [red, green, blue] = light.map(encode);
        Self::new(red, green, blue)
    }
}

/// The level of a channel in this light. It is looked up where the exact value would round to the next level: to compute
/// it takes as long as the rest of a comparison of two colors. The short table of palette can be off by one.
fn encode(light: f64) -> u8 {
    static STEPS: LazyLock<[f64; 255]> = LazyLock::new(|| {
        let mut between = (0..u8::MAX).map(|level| (f64::from(level) + 0.5) / 255.0);
        std::array::from_fn(|_| {
            let gray = between.next().unwrap_or(1.0);
            Srgb::<f64>::new(gray, gray, gray).into_linear().red
        })
    });
    u8::try_from(STEPS.partition_point(|&step| step <= light)).unwrap_or(u8::MAX)
}

/// Writes `#rrggbb`, lower case.
impl fmt::Display for Rgb {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_gray_survives_linear_light_and_back() {
        for level in 0..=255 {
            let gray = Rgb::new(level, level, level);
            assert_eq!(Rgb::from_linear(gray.linear()), gray);
        }
    }

    #[test]
    fn light_is_encoded_as_the_standard_computes_it() {
        for step in 0..=10_000_u32 {
            let light = f64::from(step) / 10_000.0;
            let exact = Srgb::<f64>::from_linear(palette::LinSrgb::new(light, light, light));
            assert_eq!(encode(light), exact.into_format::<u8>().red, "{light}");
        }
        assert_eq!([encode(-0.3), encode(1.7), encode(f64::NAN)], [0, 255, 0]);
    }

    #[test]
    fn writes_six_digits() {
        assert_eq!(Rgb::new(1, 0xab, 16).to_string(), "#01ab10");
    }

    #[test]
    fn halfway_between_black_and_white_is_half_the_light() {
        // IEC 61966-2-1: linear 0.5 is encoded 0.7354, that is 188 of 255.
        assert_eq!(Rgb::BLACK.toward(Rgb::WHITE, 0.5), Rgb::new(188, 188, 188));
        assert_eq!(Rgb::BLACK.toward(Rgb::WHITE, 7.0), Rgb::WHITE);
        assert_eq!(Rgb::BLACK.toward(Rgb::WHITE, f64::NAN), Rgb::BLACK);
    }
}
