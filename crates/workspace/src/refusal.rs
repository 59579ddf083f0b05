//! What the system refuses, in words: its own begin with a capital letter and end with a number that nobody can look up.

use std::io;

/// Why the system did not do something, to be said after a colon: "the disk is full".
pub fn refusal(error: &io::Error) -> String {
    use io::ErrorKind as K;
    let said = match error.kind() {
        K::NotFound => "there is no such file or folder",
        K::PermissionDenied => "you have no right to do that",
        K::AlreadyExists => "something of that name is there already",
        K::NotADirectory => "a part of its path is a file and no folder",
        K::IsADirectory => "it is a folder",
        K::ReadOnlyFilesystem => "that disk can only be read",
        K::StorageFull => "the disk is full",
        K::QuotaExceeded => "your share of the disk is used up",
        K::FileTooLarge => "it is larger than a file may be there",
        K::InvalidFilename => "its name is too long or has signs that are not allowed there",
        K::ResourceBusy | K::ExecutableFileBusy => "another program is using it",
        K::AddrInUse => "another program uses that address",
        K::BrokenPipe => "whoever reads it has gone",
        K::OutOfMemory => "there is not enough memory",
        K::TimedOut => "it took too long",
        _ => return without_numbers(&error.to_string()),
    };
    said.to_owned()
}

/// What a library says of the system, as it stands within a sentence.
pub(crate) fn without_numbers(said: &str) -> String {
    const NUMBER: &str = " (os error ";
    let mut parts = said.split(NUMBER);
    let mut text = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        text.push_str(part.split_once(')').map_or(part, |(_, rest)| rest));
    }
    let mut letters = text.chars();
    match (letters.next(), letters.next()) {
        (Some(first), Some(second)) if second.is_lowercase() => {
            first.to_lowercase().chain(text.chars().skip(1)).collect()
        }
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_the_system_says_has_a_number() {
        for number in 1..200 {
            let error = io::Error::from_raw_os_error(number);
            let said = refusal(&error);
            assert!(!said.is_empty() && !said.contains("os error"), "{error}: {said}");
        }
    }

    #[test]
    fn what_a_library_says_loses_the_number_wherever_it_stands() {
        assert_eq!(
            without_numbers("Permission denied (os error 13) at path \"a\""),
            "permission denied at path \"a\""
        );
        assert_eq!(without_numbers("I/O error (os error 5)"), "I/O error");
        assert_eq!(without_numbers("Input/output error (os error 5"), "input/output error5");
        let wrapped = io::Error::new(io::ErrorKind::PermissionDenied, "x (os error 13)");
        assert_eq!(refusal(&wrapped), "you have no right to do that");
    }
}
