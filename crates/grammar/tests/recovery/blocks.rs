//! Braces that are missing or too many.

crate::cases! {
    missing_brace_is_placed_by_indentation: "\
set {
  both {
    take left 1: forward 2
  take left 2: forward 1
}
thread kelp #fff
";
    missing_brace_at_the_end: "\
set {
  take left 1: forward 2
";
    missing_brace_before_a_head_word: "\
opening {
  take left 1: forward 2

set {
  take left 1: forward 2
}
";
    missing_brace_shown_by_a_later_brace: "\
set {
  section \"fans\" {
    both {
      take left 1: forward 2
  }
  take left 2: forward 1
}
ends 3 cm
";
    missing_brace_of_a_one_line_block: "\
set {
  both { on left 2 { take left 1: forward 1
  take left 2: forward 1
}
";
    missing_brace_of_a_chart: "\
set {
  rows {
    \\ /
  take left 2: forward 1
}
ends 3 cm
";
    flush_left_is_no_error: "\
set {
both {
take left 1: forward 2
}
take left 2: forward 1
}
thread kelp #fff
";
    flush_left_with_a_missing_brace: "\
set {
both {
take left 1: forward 2
take left 2: forward 1
}
thread kelp #fff
";
    brace_too_many_within: "\
set {
  both {
    take left 1: forward 2
    }
  }
  take left 2: forward 1
}
thread kelp #fff
";
    brace_too_many_at_the_end: "set {\n}\n}\n}\nthread kelp #fff\n}\n";
    brace_on_a_line_of_its_own: "set\n\n{\n  meet center\n}\n";
    two_statements_in_a_line_block: "set { both { meet center meet center } }\n";
    a_line_block_that_goes_on: "\
set {
  both { meet center
    meet center
  }
}
";
    a_block_that_ends_behind_its_last_statement: "set {\n  meet center }\nends 3 cm\n";
    a_statement_behind_a_block: "set {\n  both { meet center } meet center\n}\n";
    a_line_block_around_lines: "set {\n  both { on left 2 {\n    meet center\n  } }\n}\n";
    braces_alone: "set { { { } } }\n";
}
