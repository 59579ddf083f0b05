//! Lines that do not parse, and the lines around them.

crate::cases! {
    a_broken_line_opens_its_block: "\
set {
  on the left 4 {
    take left 1: forward 2
  }
  take left 2: forward 1
}
";
    a_line_of_an_unknown_word_takes_its_then_lines: "\
set {
  tke left 1: forward 2
    then 3
  meet center
}
";
    an_unknown_block_does_not_breed: "\
guage {
  thickness 3 mm
  10 knots use 20 cm
}
blok {
  some words
  take left 1: forward 3
  take left: forward 3
}
";
    misspelled_words: "\
start foldde pairs mirrored
set {
  take rigt 2: forward 3
  take left 1: foward 3
  take left 1: forward untl foam
  take foam 1 form left: forward 2
  work fans() mirored
  take lft 1: forwrd 3
  then 2
}
motif m() onn 4 {
  take left 1: sideways 3
  take foam 1: forward 3
  take leef 1: forward 3
}
gauge {
  10 kots use 12 cmm
}
";
    a_statement_word_ends_a_run_on: "\
strands kelp,
set {
  take left 1: forward 2,
  meet center
}
";
    other_words_go_on_with_a_run_on: "\
strands kelp, -- the outer ones

  -- and
  foam |
  mirror
set {
  take left 1: forward 2,
    backward 1,
    then 3
  -- once more

    then 2
}
";
    then_without_a_take: "set {\n  meet center\n    then 3\n  then 2\n}\n";
    only_the_first_problem_of_a_line: "set {\n  take left 15cm: forwards 3over foam\n  meet center\n}\n";
    small_slips_leave_the_statement: "\
set {
  take left 1: forward 4over foam
  take left 1: forward n -1
  note \"a \\n and a { in it\"
}
";
    a_string_not_closed: "\
pattern \"Tide
colorway \"night {
  thread kelp black
}
set {
  section \"fans {
    meet center
  }
  note \"see { there
  note \"and so on
}
";
    unknown_signs: "set {\n  take left 1; forward §§ 4 €\n  meet center\n}\n";
    every_extent_has_its_kind: "\
set {
  take left 1: forward-backward over foam
  take left 1: backward-forward 2, forward-backward to edge
  take left 1: forward-backward 2 then until foam
  take left 1: forward-backward 2 over foam
}
";
    one_series_and_no_then: "\
set {
  take left 1: forward 3 down to 1, backward 1 up to 3
  take left 1: forward 3 down to 1 then 3
  take left 1: forward 3 then 3 down to 1
}
";
    a_bare_extent_only_after_then: "\
set {
  take left 1: 4
  take left 1: forward 4, 3
  take left 1: forward 4 then 3, 2
}
";
    numbers: "\
sets 1.5
sets 2000000000
sets 1000000000
length 99999999999 cm
length 9 meters
strands 2.5 kelp
";
}
