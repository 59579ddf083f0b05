//! Statements that stand where they do not belong.

crate::cases! {
    head_in_a_set: "set {\n  thread kelp #fff\n  meet center\n  length 3 cm\n}\n";
    body_at_the_top: "take left 1: forward 2\nboth {\n  meet center\n}\nsets 3\nmeet center\n";
    a_set_in_a_set: "set {\n  set {\n    meet center\n  }\n}\n";
    others_in_a_colorway: "colorway \"night\" {\n  thread kelp black\n  ends 3 cm\n  foam white\n}\n";
    others_in_a_gauge: "gauge {\n  thickness 1 mm\n  meet center\n  10 knots measure 3 cm\n  weight 3 mm\n}\nthickness 3 mm\n";
    others_in_rows: "set {\n  rows {\n    \\ /\n    meet center\n    both {\n      \\ q /\n    }\n    x # x\n  }\n  meet center\n}\n";
    others_in_leader: "set {\n  leader left 1 {\n    . # x\n    # \\ #\n    #fade\n  }\n}\n";
    letters_elsewhere: "set {\n  letters \"A\"\n  rows {\n    letters \"A\"\n    \\ /\n  }\n}\nletters \"A\"\n";
    letters_that_do_not_read: "set {\n  leader left 1 {\n    letters\n    letters AHOY\n    letters \"A\" height\n    letters \"A\" height 5 across\n    letters \"A\" tall\n    leters \"A\"\n    letters \"A\" 5cm\n    letters \"A\n    letters \"{\"\n    letters \"A\" { . }\n    . letters \"A\"\n    . #\n  }\n}\n";
    gauge_lines_elsewhere: "10 knots use 3 cm\nset {\n  10 rows measure 3 cm\n}\n";
}
