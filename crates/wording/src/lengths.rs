//! Lengths as a person measures them.

/// Millimeters in the unit that fits: "4 mm", "15 cm", "2.5 cm".
pub fn length(millimeters: f64) -> String {
    let (value, unit) =
        if millimeters.abs() < 10.0 { (millimeters, "mm") } else { (millimeters / 10.0, "cm") };
    let text = format!("{value:.1}");
    format!("{} {unit}", text.strip_suffix(".0").unwrap_or(&text))
}

#[cfg(test)]
mod tests {
    use super::length;

    #[test]
    fn lengths_take_the_unit_a_person_would() {
        assert_eq!([0.9, 150.0, 25.4].map(length), ["0.9 mm", "15 cm", "2.5 cm"]);
    }
}
