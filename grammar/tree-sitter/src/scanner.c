// Tells the line ends of the notation apart, and keeps names off the numbers before them.

#include "tree_sitter/parser.h"

#include <stdbool.h>
#include <stddef.h>
#include <string.h>
#include <wctype.h>

enum Token { NEWLINE, THEN_LINE, RUN_ON, APART, COMMENT, PLUS, MINUS, TIMES, ERROR_SENTINEL };

// A line that begins with one of these is a statement of its own, whatever dangles before it.
static const char *const STATEMENTS[] = {
    "pattern", "about",  "author", "license", "thread",  "colorway", "strands",  "gauge",  "length",  "sets",
    "ends",    "start",  "use",    "motif",   "opening", "set",      "closing",  "take",   "meet",    "on",
    "both",    "mirrored", "work", "repeat",  "for",     "rows",     "leader",   "section", "note",   "expect",
    "face",
};

enum { LONGEST = 16 };

void *tree_sitter_knotwright_external_scanner_create(void) { return NULL; }
void tree_sitter_knotwright_external_scanner_destroy(void *payload) { (void)payload; }
unsigned tree_sitter_knotwright_external_scanner_serialize(void *payload, char *buffer) {
  (void)payload;
  (void)buffer;
  return 0;
}
void tree_sitter_knotwright_external_scanner_deserialize(void *payload, const char *buffer, unsigned length) {
  (void)payload;
  (void)buffer;
  (void)length;
}

static void advance(TSLexer *lexer) { lexer->advance(lexer, false); }
static void skip(TSLexer *lexer) { lexer->advance(lexer, true); }

static bool at_line_end(const TSLexer *lexer) { return lexer->lookahead == '\n' || lexer->lookahead == '\r'; }

static void pass_to_line_end(TSLexer *lexer) {
  while (!at_line_end(lexer) && !lexer->eof(lexer)) advance(lexer);
}

static void pass_blanks_and_comments(TSLexer *lexer) {
  for (;;) {
    while (lexer->lookahead == ' ' || lexer->lookahead == '\t' || at_line_end(lexer)) advance(lexer);
    if (lexer->lookahead != '-') return;
    advance(lexer);
    if (lexer->lookahead != '-') return;
    pass_to_line_end(lexer);
  }
}

static bool in_word(int32_t sign) { return iswalnum((wint_t)sign) || sign == '-' || sign == '_'; }

// Reads the next word; a longer one than any of ours comes out cut, and so equals none.
static void next_word(TSLexer *lexer, char word[LONGEST + 1]) {
  size_t length = 0;
  while (in_word(lexer->lookahead)) {
    if (length < LONGEST) word[length++] = lexer->lookahead < 128 ? (char)lexer->lookahead : '?';
    advance(lexer);
  }
  word[length] = '\0';
}

static bool begins_statement(const char *word) {
  for (size_t at = 0; at < sizeof STATEMENTS / sizeof *STATEMENTS; at++) {
    if (strcmp(word, STATEMENTS[at]) == 0) return true;
  }
  return false;
}

// A comment, or one of the signs `+ - *` with a space behind it; there is a space or nothing before.
static bool scan_sign(TSLexer *lexer, const bool *valid) {
  enum Token sign = lexer->lookahead == '+' ? PLUS : lexer->lookahead == '*' ? TIMES : MINUS;
  advance(lexer);
  if (sign == MINUS && lexer->lookahead == '-') {
    pass_to_line_end(lexer);
    sign = COMMENT;
  } else if (lexer->lookahead != ' ' && lexer->lookahead != '\t') {
    return false;
  }
  lexer->mark_end(lexer);
  lexer->result_symbol = sign;
  return valid[sign];
}

static bool is_sign(int32_t sign) { return sign == '+' || sign == '-' || sign == '*'; }

static bool scan_line_end(TSLexer *lexer, const bool *valid) {
  bool carriage_return = lexer->lookahead == '\r';
  advance(lexer);
  if (carriage_return && lexer->lookahead == '\n') advance(lexer);
  lexer->mark_end(lexer);
  char word[LONGEST + 1];
  pass_blanks_and_comments(lexer);
  next_word(lexer, word);
  if (valid[THEN_LINE] && strcmp(word, "then") == 0) {
    lexer->result_symbol = THEN_LINE;
  } else if (valid[RUN_ON] && !begins_statement(word)) {
    lexer->result_symbol = RUN_ON;
  } else if (valid[NEWLINE]) {
    lexer->result_symbol = NEWLINE;
  } else {
    return false;
  }
  return true;
}

bool tree_sitter_knotwright_external_scanner_scan(void *payload, TSLexer *lexer, const bool *valid) {
  (void)payload;
  if (valid[ERROR_SENTINEL]) return false;
  if (valid[APART] && !in_word(lexer->lookahead) && lexer->lookahead != '.') {
    lexer->result_symbol = APART;
    return true;
  }
  bool free = lexer->get_column(lexer) == 0;
  while (lexer->lookahead == ' ' || lexer->lookahead == '\t') {
    free = true;
    skip(lexer);
  }
  if (free && is_sign(lexer->lookahead)) return scan_sign(lexer, valid);
  return at_line_end(lexer) && scan_line_end(lexer, valid);
}
