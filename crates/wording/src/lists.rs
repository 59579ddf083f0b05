//! Lists as they are read aloud, and the beginning of a sentence.

/// "a", "a or b", "a, b or c".
pub fn either(words: &[impl AsRef<str>]) -> String {
    list(words, "or")
}

/// "a", "a and b", "a, b and c".
pub fn both(words: &[impl AsRef<str>]) -> String {
    list(words, "and")
}

fn list(words: &[impl AsRef<str>], joint: &str) -> String {
    let words: Vec<&str> = words.iter().map(AsRef::as_ref).collect();
    match words.as_slice() {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [most @ .., last] => format!("{} {joint} {last}", most.join(", ")),
    }
}

/// The first letter large, as a sentence begins.
pub fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_read_aloud() {
        assert_eq!(either(&["a"]), "a");
        assert_eq!(either(&["a", "b", "c"]), "a, b or c");
        assert_eq!(both(&["a", "b"]), "a and b");
        assert_eq!(both(&[""; 0]), "");
        assert_eq!(sentence("a band"), "A band");
    }
}
