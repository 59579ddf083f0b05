//! A letter for every thread, for where there is no color.

use unicode_width::UnicodeWidthChar;

/// By name of a thread, a letter of its own: the first letter of its name that is still free, else the next of the alphabet,
/// else a digit; `?` when even those are used up. Letters that look alike in small print, such as `O` and `0`, are not both
/// taken while there are others.
pub fn assign_letters<'a>(names: impl IntoIterator<Item = &'a str>) -> Vec<char> {
    let mut letters: Vec<char> = Vec::new();
    for name in names {
        // Wide letters would push the columns of a terminal apart.
        let fits = |letter: &char| letter.is_alphanumeric() && letter.width() == Some(1);
        let own = name.chars().map(capital).filter(fits);
        let mut all = own.chain('A'..='Z').chain('a'..='z').chain('0'..='9');
        let is_clear = |letter: &char| letters.iter().all(|taken| look(*taken) != look(*letter));
        let is_free = |letter: &char| !letters.contains(letter);
        let found = all.clone().find(is_clear).or_else(|| all.find(is_free));
        letters.push(found.unwrap_or('?'));
    }
    letters
}

/// One letter for all that look like it.
fn look(letter: char) -> char {
    match letter {
        'o' | '0' => 'O',
        'l' | '1' => 'I',
        's' | '5' => 'S',
        'z' | '2' => 'Z',
        '8' => 'B',
        '6' => 'G',
        'c' | 'k' | 'p' | 'u' | 'v' | 'w' | 'x' | 'y' => letter.to_ascii_uppercase(),
        _ => letter,
    }
}

/// The letters of threads.
pub(crate) fn of_threads(threads: &[crate::BandThread]) -> Vec<char> {
    assign_letters(threads.iter().map(|thread| thread.name.as_str()))
}

fn capital(letter: char) -> char {
    let mut upper = letter.to_uppercase();
    match (upper.next(), upper.next()) {
        (Some(one), None) => one,
        _ => letter,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(names: &[&str]) -> String {
        assign_letters(names.iter().copied()).into_iter().collect()
    }

    #[test]
    fn the_first_letter_of_the_name_that_is_free() {
        assert_eq!(of(&["kelp", "foam", "sand"]), "KFS");
        assert_eq!(of(&["kelp", "krill", "kk", "KLR"]), "KRAL");
        assert_eq!(of(&["été", "straße", "ß", "-", "海b"]), "ÉSßAB");
    }

    #[test]
    fn letters_that_look_alike_are_not_taken_together() {
        assert_eq!(of(&["0", "oak", "1", "ink", "5", "sand"]), "0A1N5D");
        let many: Vec<String> = (0..40).map(|_| "-".to_owned()).collect();
        let found = of(&many.iter().map(String::as_str).collect::<Vec<_>>());
        for pair in ["O0", "I1", "Il", "S5", "Ss", "Z2", "B8", "Cc"] {
            let both = pair.chars().all(|letter| found[..found.len().min(30)].contains(letter));
            assert!(!both, "{pair} in {found}");
        }
    }

    #[test]
    fn no_two_threads_share_a_letter_while_there_are_any() {
        let names: Vec<String> = (0..62).map(|_| "aaa".to_owned()).collect();
        let mut found: Vec<char> =
            of(&names.iter().map(String::as_str).collect::<Vec<_>>()).chars().collect();
        found.sort_unstable();
        found.dedup();
        assert_eq!(found.len(), 62);
    }
}
