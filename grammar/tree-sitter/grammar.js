/**
 * The notation for editors. It is held to the Rust parser by shared/corpus and shared/patterns: a file is
 * accepted by one exactly if it is by the other.
 *
 * A statement ends with its line, so line ends are tokens here; the scanner in src/scanner.c tells apart a
 * line end that ends a statement, one that a `then` carries on, and one that a `,` or `|` carries on.
 */

/// <reference types="tree-sitter-cli/dsl" />
// @ts-check

const RESERVED = [
  'left', 'right', 'center', 'edge', 'start', 'from', 'mirror', 'over', 'until', 'to', 'by', 'inside',
  'forward', 'backward', 'forward-backward', 'backward-forward',
]

const DIRECT = ['forward', 'backward']
const TURNING = ['forward-backward', 'backward-forward']

/** `rule, rule, ...`, where a `,` may end a line */
const commas = ($, rule) => seq(rule, repeat(seq($._comma, rule)))

module.exports = grammar({
  name: 'knotwright',

  word: $ => $.identifier,

  reserved: { global: _ => RESERVED },

  extras: $ => [/[ \t]/, '\ufeff', $.comment],

  externals: $ => [
    $._newline, // ends a statement
    $._then_line, // a line end that a `then` carries on
    $._run_on, // a line end that a `,` or `|` before it carries on
    $._apart, // nothing, but no name may touch the number or the letter before it
    $.comment, // at a line's start or after a space
    $._plus, // signs stand between spaces
    $._minus,
    $._times,
    $._error,
  ],

  // `take label (foam):` and `take foam (size - 1) from left:` part ways late.
  conflicts: $ => [[$.strand], [$._runs], [$._runs, $._series_runs], [$.then]],

  supertypes: $ => [$._head_statement, $._body_statement, $._end_piece],

  rules: {
    file: $ => seq(repeat($._newline), optional(seq(
      $._head_statement,
      repeat(seq(repeat1($._newline), $._head_statement)),
      repeat($._newline),
    ))),

    // The head

    _head_statement: $ => choice(
      $.pattern, $.about, $.author, $.license, $.thread, $.bead, $.colorway, $.strands, $.gauge, $.length, $.sets,
      $.ends, $.start, $.use, $.motif, $.begin, $.finish, $.opening, $.set, $.closing,
    ),

    pattern: $ => seq('pattern', field('title', $.string), repeat($.translation), optional(seq('edition', $.whole))),
    about: $ => seq('about', $.string, repeat($.translation)),
    author: $ => seq('author', $.string),
    license: $ => seq('license', $.string),
    thread: $ => seq('thread', field('name', $.name), field('color', choice($.color, $.color_name)),
      optional($.measure), repeat($.shade), optional(field('label', $.string)), repeat($.translation)),
    // A further color of a thread that changes color, and how far it goes.
    shade: $ => seq($._comma, field('color', choice($.color, $.color_name)), $.measure),
    bead: $ => seq('bead', field('name', $.name), field('color', choice($.color, $.color_name)), $.measure, 'hole', $.measure,
      optional(field('label', $.string)), repeat($.translation)),
    // The same in another language.
    translation: $ => seq($._comma, field('language', $.language), $.string),
    language: $ => $.identifier,
    color_name: $ => $.identifier,
    colorway: $ => seq('colorway', field('name', $.string), alias($.thread_block, $.block)),
    strands: $ => seq('strands', choice($._list, seq(
      'from', 'left', $.item, repeat(seq(optional($._comma), $.item)), $._comma,
      'from', 'right', $._items,
    ))),
    gauge: $ => seq('gauge', alias($.swatch_block, $.block)),
    swatch: $ => choice(
      seq('thickness', $.measure),
      seq($.whole, 'knots', 'use', $.measure),
      seq($.whole, 'rows', 'measure', $.measure),
      seq($.whole, 'tex'),
    ),
    length: $ => seq('length', $.measure),
    sets: $ => seq('sets', $.whole),
    ends: $ => seq('ends', $.measure),
    start: $ => seq('start', choice(
      'loose',
      seq('folded', $._pairs),
      seq('loop', $.measure, $._pairs),
    )),
    _pairs: $ => seq('pairs', choice('side-by-side', 'mirrored')),
    use: $ => seq('use', commas($, field('motif', $.name)), 'from', field('path', $.string)),
    motif: $ => seq('motif', field('name', $.name), field('parameters', $.parameters),
      optional(seq('on', field('width', $.whole))), $.block),
    parameters: $ => seq('(', optional(commas($, $.name)), ')'),
    opening: $ => seq('opening', $.block),
    set: $ => seq('set', $.block),
    closing: $ => seq('closing', $.block),

    // How the band begins and ends. These words are words only at the start of their lines, in these blocks.

    begin: $ => seq('begin', alias($.piece_block, $.block)),
    finish: $ => seq('finish', alias($.piece_block, $.block)),

    _end_piece: $ => choice(
      $.knot, $.plait, $.twist, $.wrap, $.split, $.loop, $.tassel, $.end_bead, $.closing_knot, $.slide,
    ),

    knot: _ => 'knot',
    plait: $ => seq('plait', $.whole, 'for', $.measure),
    twist: $ => seq('twist', 'for', $.measure),
    wrap: $ => seq('wrap', field('thread', $.name), $.whole, 'turns'),
    split: $ => seq('split', $.whole, alias($.piece_block, $.block)),
    loop: $ => seq('loop', $.measure),
    tassel: $ => seq('tassel', $.measure),
    end_bead: $ => seq('bead', field('bead', $.name)),
    closing_knot: _ => seq('closing', 'knot'),
    slide: $ => seq('slide', optional(field('thread', $.name)), $.whole, 'turns'),

    // The body

    _body_statement: $ => choice(
      $.take, $.meet, $.on, $.both, $.mirrored, $.work, $.repeat, $.for, $.rows, $.leader, $.section, $.note,
      $.expect, $.face, $.bead_place, $.join,
    ),

    take: $ => seq('take', field('strand', $.strand), optional($.promise),
      optional(seq('as', field('label', $.name))), ':', choice(
        seq($._runs, repeat($.then)),
        $._series_runs,
      )),
    promise: $ => seq('(', $.name, ')'),
    then: $ => seq(optional(','), repeat($._then_line), 'then', choice(
      seq($.bare_run, repeat(seq($._comma, $.run))),
      $._runs,
    )),
    _runs: $ => commas($, $.run),
    // A series once, among runs without one.
    _series_runs: $ => seq(
      repeat(seq($.run, $._comma)),
      alias($.series_run, $.run),
      repeat(seq($._comma, $.run)),
    ),
    run: $ => choice(
      seq($.kind, choice($._count, $._far)),
      seq(alias($.turning_kind, $.kind), $._count),
    ),
    bare_run: $ => choice($._count, $._far),
    series_run: $ => seq(choice($.kind, alias($.turning_kind, $.kind)), $.series),
    kind: _ => choice(...DIRECT),
    turning_kind: _ => choice(...TURNING),
    _count: $ => seq(field('count', $._expression), optional(seq('over', field('over', $.name)))),
    _far: $ => choice(
      seq('over', $.name),
      seq('until', $.name),
      seq('to', $.goal),
    ),
    series: $ => seq($._expression, choice('down', 'up'), 'to', $._expression,
      optional(seq('by', $._expression))),
    goal: $ => choice(
      seq(choice('left', 'right'), $._expression),
      seq('center', optional(choice('left', 'right'))),
      'edge',
    ),

    strand: $ => choice(
      seq(choice('left', 'right'), $._expression),
      seq('center', optional(choice('left', 'right'))),
      seq(field('color', $.name), $._expression, choice(
        seq('from', choice('left', 'right')),
        seq(choice('left', 'right'), 'of', 'center'),
      )),
      field('label', $.name),
    ),

    meet: _ => seq('meet', 'center'),
    join: $ => seq('join', $.strand, optional(seq('with', field('thread', $.name))),
      optional(seq('in', 'set', field('set', $._expression)))),
    on: $ => seq('on', $.range, $.block),
    range: $ => choice(
      seq(choice('left', 'right', 'center', 'inside'), $._expression),
      seq($._expression, 'to', $._expression),
    ),
    both: $ => seq('both', $.block),
    mirrored: $ => seq('mirrored', $.block),
    work: $ => seq('work', field('motif', $.name), $.arguments, optional('mirrored')),
    arguments: $ => seq('(', optional(commas($, $._expression)), ')'),
    repeat: $ => seq('repeat', $._expression, $.block),
    for: $ => seq('for', field('variable', $.name), $.series, $.block),
    section: $ => seq('section', field('title', $.string), repeat($.translation), $.block),
    note: $ => seq('note', $.string, repeat($.translation)),
    bead_place: $ => seq('bead', field('bead', $.name), 'on', commas($, $.strand)),
    expect: $ => seq('expect', choice(
      $._list,
      seq('start', optional('mirrored')),
      seq('face', choice('mirror', 'turn', 'flip')),
    )),

    rows: $ => seq('rows', optional('offset'), ...block($, alias($.brick_row, $.row))),
    brick_row: $ => repeat1(alias(choice('\\', '/', '>', '<', '.', 'x'), $.mark)),
    leader: $ => seq('leader', $.strand, optional($.promise),
      ...block($, choice(alias($.leader_row, $.row), $.letters))),
    leader_row: $ => repeat1(alias(choice('.', '#'), $.mark)),

    face: $ => seq('face', optional('offset'), optional(commas($, $.key)), ...block($, alias($.face_row, $.row))),
    key: $ => seq(field('letter', $.letter), $._apart, field('thread', $.name)),
    face_row: $ => repeat1(alias(choice('.', '?', $.letter), $.mark)),

    letters: $ => seq('letters', $.string, optional('across'), optional(seq('height', $.whole))),

    block: $ => seq(...block($, $._body_statement)),
    thread_block: $ => seq(...block($, $.thread)),
    swatch_block: $ => seq(...block($, $.swatch)),
    piece_block: $ => seq(...block($, $._end_piece)),

    // Lists

    _list: $ => seq($._items, optional(choice(
      seq($._pipe, $._items),
      seq($._pipe, $.mirror),
      seq($._pipe, $.item, $._pipe, $.mirror),
    ))),
    mirror: _ => 'mirror',
    _items: $ => seq($.item, repeat(seq(optional($._comma), $.item))),
    // A thread may be called `face`, also where `expect face mirror` could begin.
    item: $ => seq(optional(field('count', choice($.whole, $.group))), field('thread', choice($.name, alias('face', $.name)))),

    _comma: $ => seq(',', repeat($._run_on)),
    _pipe: $ => seq('|', repeat($._run_on)),

    // Small things

    _expression: $ => choice($.whole, $.name, $.operation, $.group),
    operation: $ => choice(
      prec.left(1, seq($._expression, choice(alias($._plus, '+'), alias($._minus, '-')), $._expression)),
      prec.left(2, seq($._expression, alias($._times, '*'), $._expression)),
    ),
    group: $ => seq('(', $._expression, ')'),
    measure: $ => seq(choice($.whole, $.decimal), $.unit),
    unit: _ => choice('mm', 'cm', 'm', 'in'),
    whole: $ => seq(/[0-9]+/, $._apart),
    decimal: $ => seq(/[0-9]+\.[0-9]+/, $._apart),
    string: $ => seq('"', repeat(choice($.escape, token.immediate(prec(1, /[^"\\{}\r\n]+/)))),
      token.immediate('"')),
    escape: _ => token.immediate(/\\["\\]/),
    color: _ => /#([0-9a-fA-F]{3}|[0-9a-fA-F]{6})/,
    letter: _ => /\p{L}/,
    name: $ => $.identifier,
    identifier: _ => /\p{XID_Start}[\p{XID_Continue}]*(-[\p{XID_Continue}]+)*/,
  },
})

/** Braces around statements, one a line; or one statement on the same line. */
function block ($, statement) {
  return ['{', choice(
    optional(statement),
    seq(repeat1($._newline), repeat(seq(statement, repeat1($._newline)))),
  ), '}']
}
