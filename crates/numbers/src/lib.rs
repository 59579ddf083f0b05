//! From one type of number to another, where `From` has no answer.
//!
//! Knots, steps and places in a text are counted in `u32`, strands in `u8`, and both are used as indexes and as factors of
//! lengths. An `as` would turn what does not fit into some other number without a word, so clippy denies it. Whether a
//! number fits is settled where it comes in: a text that is too large is not read, a band that is too large is not tied.
//! Here it is converted, and if it does not fit after all it stays as near as the type permits, so that an index leads
//! nowhere instead of somewhere else.

#![allow(
    clippy::cast_lossless,
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "the one place where numbers change their type"
)]

/// Converts to a type of number: what does not fit becomes the least or the greatest that does.
///
/// To an integer, fractions are cut off, and what is no number becomes 0. To a float, it is the nearest there is: exact up
/// to 2^53 as an `f64`, and up to 2^24 as an `f32`.
pub trait ToNumber: Copy {
    /// As `u8`, such as the number of a strand.
    fn to_u8(self) -> u8;
    /// As `u16`, such as the number of a thread.
    fn to_u16(self) -> u16;
    /// As `u32`, such as the number of a knot.
    fn to_u32(self) -> u32;
    /// As `u64`, such as a count in words.
    fn to_u64(self) -> u64;
    /// As `usize`, such as an index.
    fn to_usize(self) -> usize;
    /// As `i32`, such as a place on a picture.
    fn to_i32(self) -> i32;
    /// As `i64`, such as a difference.
    fn to_i64(self) -> i64;
    /// As `f32`.
    fn to_f32(self) -> f32;
    /// As `f64`, such as a factor of a length.
    fn to_f64(self) -> f64;
}

macro_rules! saturating {
    ($self:ident, $to:ty, $below:expr) => {
        <$to>::try_from($self).unwrap_or(if $below { <$to>::MIN } else { <$to>::MAX })
    };
}

macro_rules! cast {
    ($self:ident, $to:ty, $below:expr) => {
        $self as $to
    };
}

macro_rules! convert {
    ($convert:ident, $below:expr, $($from:ty),*) => { $(
        impl ToNumber for $from {
            #[inline]
            fn to_u8(self) -> u8 {
                $convert!(self, u8, $below(self))
            }
            #[inline]
            fn to_u16(self) -> u16 {
                $convert!(self, u16, $below(self))
            }
            #[inline]
            fn to_u32(self) -> u32 {
                $convert!(self, u32, $below(self))
            }
            #[inline]
            fn to_u64(self) -> u64 {
                $convert!(self, u64, $below(self))
            }
            #[inline]
            fn to_usize(self) -> usize {
                $convert!(self, usize, $below(self))
            }
            #[inline]
            fn to_i32(self) -> i32 {
                $convert!(self, i32, $below(self))
            }
            #[inline]
            fn to_i64(self) -> i64 {
                $convert!(self, i64, $below(self))
            }
            #[inline]
            fn to_f32(self) -> f32 {
                self as f32
            }
            #[inline]
            fn to_f64(self) -> f64 {
                self as f64
            }
        }
    )* };
}

convert!(saturating, |_| false, u16, u32, u64, usize);
convert!(saturating, |number| number < 0, i32, i64);
// To an integer, a float is cast as this trait promises.
convert!(cast, |_| false, f32, f64);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_fits_is_the_same() {
        assert_eq!((7_usize.to_u8(), 300_usize.to_u32(), 7_u32.to_usize(), 7_i64.to_usize()), (7, 300, 7, 7));
        assert_eq!((9_usize.to_i64(), (-3_i64).to_i32(), 3_u64.to_f64()), (9, -3, 3.0));
    }

    #[test]
    fn what_does_not_fit_is_as_near_as_can_be() {
        assert_eq!((300_usize.to_u8(), u64::MAX.to_u32(), u64::MAX.to_i64()), (u8::MAX, u32::MAX, i64::MAX));
        assert_eq!(((-1_i32).to_usize(), (-1_i64).to_u8(), i64::MIN.to_i32()), (0, 0, i32::MIN));
        assert_eq!((1e99.to_u32(), (-1.5).to_u8(), f64::NAN.to_u64()), (u32::MAX, 0, 0));
    }

    #[test]
    fn fractions_are_cut_off() {
        assert_eq!((2.9_f64.to_u32(), (-2.9_f64).to_i32(), 2.9_f32.to_u8()), (2, -2, 2));
    }
}
