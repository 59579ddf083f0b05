#!/usr/bin/env bash
# Looks at the patterns of a change: checks them, tells the difference of each band, draws those that changed.
# For action.yml and for hand use; run it from the root of a repository. What it is told, in the environment:
#
#   KNOTWRIGHT   the program; `knotwright` if not set
#   PATHS        files and folders, one a line; `.` if not set
#   SINCE        a revision: only what changed since is looked at; empty: everything, and nothing is compared
#   DENY         `warnings`, or empty
#   FORMAT       the form of the report; `github` if not set
#   SUMMARY      a file to which the differences are added, as Markdown; empty: none
#   PICTURES     a folder for the pictures; empty: none
#
# It ends with 0 if all is well, 1 if there is something to mend, 2 if something is set up wrongly.
set -euo pipefail

program=${KNOTWRIGHT:-knotwright}
since=${SINCE:-}
mapfile -t paths <<<"${PATHS:-.}"
options=(--format "${FORMAT:-github}")
if [[ -n $since ]]; then options+=("--changed=$since"); fi
if [[ -n ${DENY:-} ]]; then options+=("--deny=$DENY"); fi

ended=0
"$program" check "${options[@]}" -- "${paths[@]}" || ended=$?
# Only where there are patterns: without any, `format` has nothing to do and says so.
mapfile -d '' -t patterns < <(git ls-files -z -- "${paths[@]}" | grep -z '\.knot$')
if [[ ${#patterns[@]} -gt 0 ]]; then
    "$program" format --check -- "${patterns[@]}" >&2 || ended=$(($? > ended ? $? : ended))
fi
if [[ -z $since || $ended -eq 2 ]]; then exit "$ended"; fi

base=$(git merge-base "$since" HEAD)

# The patterns that were changed (M) or added (A), as git tells them.
changed() {
    git diff --name-only -z --no-renames --diff-filter="$1" "$base" -- "${paths[@]}" | grep -z '\.knot$' || true
}

if [[ -n ${SUMMARY:-} ]]; then
    while IFS= read -r -d '' file; do
        # 1 is no fault: the bands are not the same, or it is a library, which has none.
        code=0
        said=$("$program" compare "$file" --against "$base" --format markdown 2>&1 >>"$SUMMARY") || code=$?
        if [[ $code -eq 2 ]]; then
            echo "$said" >&2
            ended=2
        fi
        echo >>"$SUMMARY"
    done < <(changed M)
fi

if [[ -n ${PICTURES:-} ]]; then
    mkdir -p "$PICTURES"
    while IFS= read -r -d '' file; do
        # Libraries and broken patterns cannot be drawn; `check` has told of those.
        "$program" draw "$file" -o "$PICTURES/${file//\//-}.svg" 2>/dev/null || true
    done < <(changed AM)
fi
exit "$ended"
