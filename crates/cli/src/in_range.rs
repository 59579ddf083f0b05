//! Whole numbers that are typed.

use std::fmt::Display;
use std::ops::RangeInclusive;
use std::str::FromStr;

/// Reads a whole number of at least `least`.
pub(crate) fn at_least<N: WholeNumber>(least: N) -> impl Fn(&str) -> Result<N, String> + Clone {
    move |typed| match typed.parse() {
        Ok(number) if number >= least => Ok(number),
        Err(_) if is_large(typed) => Err("that is too many".to_owned()),
        _ => Err(format!("write a whole number, at least {least}")),
    }
}

/// Reads a whole number from the first of `range` to the last.
pub(crate) fn within<N: WholeNumber>(range: RangeInclusive<N>) -> impl Fn(&str) -> Result<N, String> + Clone {
    move |typed| {
        let number = typed.parse().ok().filter(|number| range.contains(number));
        number.ok_or_else(|| format!("write a whole number from {} to {}", range.start(), range.end()))
    }
}

/// A number as it is typed.
pub(crate) trait WholeNumber: FromStr + PartialOrd + Display + Copy + Send + Sync + 'static {}

impl WholeNumber for u8 {}
impl WholeNumber for u32 {}

/// Whether only its size keeps a text from being a number that can be counted with.
fn is_large(typed: &str) -> bool {
    !typed.is_empty() && typed.bytes().all(|byte| byte.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_such_number_is_answered_with_those_that_are() {
        let sets = at_least(1_u32);
        assert_eq!((sets("1"), sets("4294967295")), (Ok(1), Ok(u32::MAX)));
        for none in ["0", "", "1.5", "-1", "two"] {
            assert_eq!(sets(none), Err("write a whole number, at least 1".to_owned()), "{none}");
        }
        assert_eq!(sets("4294967296"), Err("that is too many".to_owned()));
        let strands = within(2_u8..=200);
        assert_eq!((strands("2"), strands("200")), (Ok(2), Ok(200)));
        for none in ["1", "201", "300", "", "2.5", "two"] {
            assert_eq!(strands(none), Err("write a whole number from 2 to 200".to_owned()), "{none}");
        }
    }
}
