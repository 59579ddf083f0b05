//! Patterns in the fenced blocks of a Markdown file.

use crate::Fenced;
use pulldown_cmark::{CodeBlockKind, Event, Parser, Tag, TagEnd};
use std::ops::Range;

/// The patterns fenced in `markdown` as ```` ```knot ````.
///
/// A block that says more after `knot`, such as ```` ```knot fragment ````, is no whole pattern and is left out.
pub fn fenced_patterns(markdown: &str) -> Vec<Fenced> {
    if !markdown.contains("knot") {
        return Vec::new();
    }
    let mut found = Vec::new();
    let mut lines: Option<Vec<Range<usize>>> = None;
    for (event, place) in Parser::new(markdown).into_offset_iter() {
        match event {
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(says))) if says.trim() == "knot" => {
                lines = Some(Vec::new());
            }
            Event::Text(_) => lines.iter_mut().for_each(|lines| lines.push(place.clone())),
            Event::End(TagEnd::CodeBlock) => {
                found.extend(lines.take().map(|lines| Fenced::new(markdown, place, &lines)));
            }
            _ => {}
        }
    }
    found
}

/// The places of the comments of HTML in `markdown` that are on lines of their own, in order.
pub fn markdown_comments(markdown: &str) -> Vec<Range<usize>> {
    let blocks = Parser::new(markdown).into_offset_iter().filter_map(|(event, place)| match event {
        Event::Start(Tag::HtmlBlock) => Some(place),
        _ => None,
    });
    blocks.filter(|place| markdown[place.clone()].trim_start().starts_with("<!--")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is not blank of each pattern, after a test that every such byte stands where it is in the Markdown.
    fn read(markdown: &str) -> Vec<String> {
        let read = |Fenced { place, text, .. }: &Fenced| {
            let there = &markdown[place.start..place.start + text.len()];
            let same = |(at, byte): (usize, u8)| byte.is_ascii_whitespace() || there.as_bytes()[at] == byte;
            assert!(text.bytes().enumerate().all(same), "{text:?} is out of place");
            assert_eq!(text.matches('\n').count(), there.matches('\n').count());
            text.split_whitespace().collect::<Vec<_>>().join(" ")
        };
        fenced_patterns(markdown).iter().map(read).collect()
    }

    #[test]
    fn only_blocks_marked_knot_are_patterns() {
        let markdown =
            "# Tidepool\n\n```knot\npattern \"a\"\n```\n\n~~~text\nno\n~~~\n\n~~~~ knot\nb\n~~~\n~~~~\n";
        assert_eq!(read(markdown), ["pattern \"a\"", "b ~~~"]);
        assert!(read("```knot fragment\nset {\n```\n").is_empty());
        assert!(read("the word knot, `knot`\n\n    indented\n").is_empty());
    }

    #[test]
    fn places_hold_in_lists_and_quotes_and_behind_letters_of_many_bytes() {
        let markdown = "été\r\n\r\n1. item\r\n\r\n   ```knot\r\n   one\r\n     two é\r\n   ```\r\n\r\n> ```knot\r\n> three\r\n> ```\r\n";
        assert_eq!(read(markdown), ["one two é", "three"]);
    }

    #[test]
    fn a_place_within_the_fences_is_within_the_pattern() {
        let markdown = "a\n\n```knot\nb\n```\n\n> ```knot\n> c\n> ```\n";
        let within = |sign| {
            let at = markdown.rfind(sign).unwrap();
            fenced_patterns(markdown).iter().position(|fenced| fenced.place.contains(&at))
        };
        assert_eq!((within('b'), within('c'), within('k')), (Some(0), Some(1), None));
    }

    #[test]
    fn a_block_without_an_end_goes_on_to_the_end_of_the_file() {
        assert_eq!(read("```knot\npattern"), ["pattern"]);
        assert_eq!(read("```knot"), [""]);
    }

    #[test]
    fn a_fence_is_where_the_pattern_is_marked() {
        let markdown = "a\r\n\r\n> ```knot\r\n> ```\r\n\r\n```` knot\r\n````\r\n";
        let fences = fenced_patterns(markdown).into_iter().map(|fenced| &markdown[fenced.fence]);
        assert_eq!(fences.collect::<Vec<_>>(), ["```knot", "```` knot"]);
    }
}
