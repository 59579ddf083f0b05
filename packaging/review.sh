#!/usr/bin/env bash
# Looks at the patterns of a repository and at what a change does to them: `check`, `format`, `refresh` and `review`. For
# action.yml and for hand use, with git and bash 4.4; run it from the root of the repository. Its options are in the environment:
#
#   KNOTWRIGHT   the program; default: `knotwright`
#   PATHS        files and folders, one a line; default: `.`
#   SINCE        a revision: only what changed since is looked at and reviewed; empty: everything, and no review
#   DENY         `warnings`, or empty
#   BASELINE     a file with the warnings that do not count; empty: none
#   FAIL_ON      `error` or `band`: see `knotwright review --help`; default: `error`
#   FORMAT       the format of the findings; default: `github`
#   SARIF        a file for the findings as SARIF; empty: none
#   SUMMARY      a file to which the review is added, as Markdown; empty: none
#   REPORT       a folder for the review as a page, `index.html`, and for its pictures; empty: none
#   REPORT_URL   where you publish that folder, so that the review can link to it; empty: nowhere
#
# Exit codes: 0, all is well; 1, there is something to fix in a pattern; 2, something is set up wrongly.
set -euo pipefail

program=${KNOTWRIGHT:-knotwright}
# What a workflow writes as a block ends in a line break: an empty line is no path.
mapfile -t paths < <(grep . <<<"${PATHS:-.}")
if ((${#paths[@]} == 0)); then paths=(.); fi
changed=()
if [[ -n ${SINCE:-} ]]; then changed=("--changed=$SINCE"); fi
checked=("${changed[@]}")
if [[ -n ${DENY:-} ]]; then checked+=("--deny=$DENY"); fi
if [[ -n ${BASELINE:-} ]]; then checked+=("--baseline=$BASELINE"); fi

ended=0
worse() {
    if (($1 > ended)); then ended=$1; fi
}
# With -z, git writes all names as they are: without it, unusual letters are in quotes and numbers.
files=$(git ls-files -z --cached --others --exclude-standard -- "${paths[@]}" | tr '\0' '\n') || worse 2
# Without such files there is nothing to do, and the program would say so.
has() {
    grep --quiet "\.$1\$" <<<"$files"
}

"$program" check "${checked[@]}" --format "${FORMAT:-github}" -- "${paths[@]}" || worse $?
if [[ -n ${SARIF:-} ]]; then
    # How it ends was counted above.
    "$program" check "${checked[@]}" --format sarif -- "${paths[@]}" >"$SARIF" 2>/dev/null || true
fi
if has knot; then "$program" format --check "${changed[@]}" -- "${paths[@]}" >&2 || worse $?; fi
if has md; then "$program" refresh --check -- "${paths[@]}" >&2 || worse $?; fi
if [[ -z ${SINCE:-} || $ended -eq 2 ]]; then exit "$ended"; fi

review() {
    "$program" review --since "$SINCE" --fail-on "${FAIL_ON:-error}" "$@" -- "${paths[@]}" || worse $?
}
if [[ -n ${REPORT:-} ]]; then
    mkdir -p "$REPORT"
    review --format html --pictures "$REPORT/pictures" >"$REPORT/index.html"
fi
if [[ -n ${SUMMARY:-} ]]; then
    link=()
    if [[ -n ${REPORT_URL:-} ]]; then link=(--report "$REPORT_URL"); fi
    review --format markdown "${link[@]}" >>"$SUMMARY"
else
    review >&2
fi
exit "$ended"
