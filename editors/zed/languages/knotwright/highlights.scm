; Made from grammar/tree-sitter/queries/highlights.scm by `cargo xtask bless`.
; Words of the notation by what they do; names by what they name. No node is captured twice: editors differ in whether the
; first or the last capture wins.

(comment) @comment

[ "pattern" "edition" "about" "author" "license" "thread" "colorway" "strands" "gauge" "thickness" "tex" "knots" "use"
  "measure" "length" "sets" "ends" "loose" "folded" "loop" "pairs" "side-by-side" "motif" "begin" "finish" "opening" "set" "closing" ] @keyword
[ "knot" "plait" "twist" "wrap" "split" "tassel" "slide" "turns" "bead" "hole" ] @keyword

(start "start" @keyword)
(swatch "rows" @keyword)
(use "from" @keyword)
(motif "on" @keyword)
(bead_place "on" @keyword)

[ "take" "then" "as" "meet" "both" "work" "section" "note" "expect" ] @keyword
(on "on" @keyword)
(join [ "join" "with" "in" ] @keyword)
(rows [ "rows" "offset" ] @keyword)
(leader "leader" @keyword)
(face [ "face" "offset" ] @keyword)
(key letter: (letter) @function)
(key thread: (name) @variable)
(letters [ "letters" "across" "height" ] @keyword)
(letters (string) @string)
(mirrored "mirrored" @keyword)
(work "mirrored" @keyword)
(start "mirrored" @keyword)
(expect [ "start" "mirrored" "face" "turn" "flip" ] @keyword)
(expect "mirror" @operator)

[ "repeat" "for" ] @keyword

[ "left" "right" "center" "edge" "inside" "of" "over" "until" "to" "down" "up" "by" ] @operator
(strand "from" @operator)
(strands "from" @operator)
(mirror) @operator

(kind) @function
(mark) @function

(whole) @number
(decimal) @number
(unit) @type

(about (string) @string)
(author (string) @string)
(license (string) @string)
(thread label: (string) @string)
(bead label: (string) @string)
(colorway name: (string) @string)
(note (string) @string)
(translation (string) @string)
(translation language: (language) @label)
(escape) @string.escape
(use path: (string) @string.special)
(pattern title: (string) @title)
(section title: (string) @title)
[ (color) (color_name) ] @constant

(thread name: (name) @variable)
(bead name: (name) @variable)
(bead_place bead: (name) @variable)
(end_bead bead: (name) @variable)
(item thread: (name) @variable)
(promise (name) @variable)
(strand (name) @variable)
(run (name) @variable)
(bare_run (name) @variable)
(goal (name) @variable)
(range (name) @variable)
(series (name) @variable)
(repeat (name) @variable)
(arguments (name) @variable)
(operation (name) @variable)
(group (name) @variable)
(take label: (name) @label)
(join thread: (name) @variable)
(join set: (name) @variable)
(wrap thread: (name) @variable)
(slide thread: (name) @variable)
(parameters (name) @variable)
(for variable: (name) @variable)
(motif name: (name) @function)
(work motif: (name) @function)
(use motif: (name) @function)

[ "{" "}" "(" ")" ] @punctuation.bracket
[ "," ":" ] @punctuation.delimiter
[ "|" "+" "-" "*" ] @operator
