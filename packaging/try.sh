#!/usr/bin/env bash
# Uses what `cargo xtask dist` made, as a person would who just got it: try.sh FOLDER
set -euo pipefail

folder=$(cd "$1" && pwd)
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
cd "$place"

says() { echo "tried: $1"; }
fails() {
    echo "failed: $1" >&2
    exit 1
}

# The program of a folder, from a place that is not its own and with nothing to lean on.
uses() {
    local program=$1/bin/knotwright
    if ldd "$program" >ldd.txt 2>&1 && ! grep -q 'statically linked' ldd.txt; then
        fails "$program needs libraries: $(cat ldd.txt)"
    fi
    rm -rf bands && mkdir bands
    env -i PATH= "$program" new bands/first.knot
    env -i PATH= "$program" check --deny warnings bands
    env -i PATH= "$program" draw bands/first.knot --output bands/first.png
    [[ $(head --bytes=8 bands/first.png | od -An -tx1 | tr -d ' \n') == 89504e470d0a1a0a ]] || fails "no PNG is drawn"
    says "$2: the program runs alone, from another folder and with an empty PATH"
}

# The pages of the manual and the completions of a folder.
reads() {
    local page complaints
    for page in "$1"/share/man/man1/knotwright*; do
        complaints=$(MANPAGER=cat MANROFFSEQ='' man --warnings=all --local-file "$page" 2>&1 >page.txt)
        [[ -z $complaints ]] || fails "${page##*/}: $complaints"
        grep -q 'SYNOPSIS' page.txt || fails "${page##*/} cannot be read as a page of the manual"
    done
    [[ -e $(echo "$1"/share/man/man1/knotwright-check.1*) ]] || fails "a command has no page in the manual"
    bash --norc --noprofile -c 'source "$1" && complete -p knotwright' - "$1/share/bash-completion/completions/knotwright" ||
        fails "the completions do not load"
    says "$2: every page of the manual renders, and the completions load"
}

(cd "$folder" && sha256sum --check --strict SHA256SUMS)

tar --extract --file "$folder"/knotwright-*.tar.gz
top=$(echo "$place"/knotwright-*)
uses "$top" archive
reads "$top" archive
for file in README.md LICENSE-MIT LICENSE-APACHE THIRD-PARTY.txt share/knotwright/grammars/textmate/knotwright.tmLanguage.json; do
    [[ -s $top/$file ]] || fails "$file is not in the archive"
done
env -i PATH= "$top/bin/knotwright" check "$top/share/doc/knotwright/shared/patterns"
says "archive: the samples in it tie"

package=$(echo "$folder"/knotwright_*.deb)
if [[ -e $package ]]; then
    # A Debian of its own that holds nothing yet.
    mkdir -p system/var/lib/dpkg/{info,updates} && touch system/var/lib/dpkg/{status,available}
    dpkg --root="$place/system" --force-not-root --force-script-chrootless --log="$place/log" --install "$package" >/dev/null
    dpkg --root="$place/system" --verify knotwright
    uses "$place/system/usr" package
    reads "$place/system/usr" package
    dpkg --root="$place/system" --force-not-root --force-script-chrootless --log="$place/log" --purge knotwright >/dev/null
    [[ ! -e system/usr ]] || fails "the package leaves files behind"
    says "package: installed, used and purged in a root of its own"
fi
