//! Line ends, the byte-order mark and the last line, byte by byte.

use knotwright_formatter::format_text;

#[test]
fn crlf_is_kept_and_used_for_new_lines() {
    let text = "set {\r\nboth { take left 1: forward 3\r\nthen 2 }\r\n}\r\n";
    let out = "set {\r\n  both {\r\n    take left 1: forward 3\r\n      then 2\r\n  }\r\n}\r\n";
    assert_eq!(format_text(text), out);
}

#[test]
fn each_line_keeps_its_own_end() {
    let text = "sets  2\r\n\n\r\nends 4  cm\n\r\nlength 15 cm\rabout  \"dusk\"\r\n";
    let out = "sets 2\r\n\nends 4 cm\n\r\nlength 15 cm\rabout \"dusk\"\r\n";
    assert_eq!(format_text(text), out);
}

#[test]
fn the_byte_order_mark_stays_first() {
    assert_eq!(format_text("\u{feff}\n\n  sets   2\n"), "\u{feff}sets 2\n");
    assert_eq!(format_text("\u{feff}"), "\u{feff}");
    assert_eq!(format_text("\u{feff}  -- alone\r\n"), "\u{feff}-- alone\r\n");
}

#[test]
fn the_file_ends_in_one_line_end_or_in_none_as_it_did() {
    assert_eq!(format_text("sets 2\n\n \n"), "sets 2\n");
    assert_eq!(format_text("sets 2\r\n\r\n"), "sets 2\r\n");
    assert_eq!(format_text("sets 2  "), "sets 2");
    assert_eq!(format_text("sets 2\n    "), "sets 2\n");
    assert_eq!(format_text("sets 2  -- twice  "), "sets 2  -- twice");
}

#[test]
fn a_file_of_white_space_is_empty() {
    assert_eq!(format_text(""), "");
    assert_eq!(format_text("  \n\t\n\r\n"), "");
}

#[test]
fn blank_lines_at_the_start_go() {
    assert_eq!(format_text("\n\r\n   sets 2\n"), "sets 2\n");
}
