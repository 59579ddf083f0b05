//! The codes of languages that a tag can begin with.
//!
//! ISO 639-2 has a code of three letters for every language, for some a second one made of its English name; ISO 639-1 has two
//! letters for some. Where there are two letters, only these are in the registry of tags (RFC 5646, section 2.2.1). The codes are
//! those of the ISO 639-2 Registration Authority, compared with the IANA Language Subtag Registry of 2024-05-16: it has no code
//! of three letters that stands here, and of two letters those that stand here and [`WITHDRAWN`].

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};
use std::sync::LazyLock;

/// Three letters, and the two that stand for the same language.
const LONG_AND_SHORT: &str = "\
    aar:aa abk:ab afr:af aka:ak alb:sq amh:am ara:ar arg:an arm:hy asm:as ava:av ave:ae aym:ay aze:az bak:ba \
    bam:bm baq:eu bel:be ben:bn bis:bi bod:bo bos:bs bre:br bul:bg bur:my cat:ca ces:cs cha:ch che:ce chi:zh \
    chu:cu chv:cv cor:kw cos:co cre:cr cym:cy cze:cs dan:da deu:de div:dv dut:nl dzo:dz ell:el eng:en epo:eo \
    est:et eus:eu ewe:ee fao:fo fas:fa fij:fj fin:fi fra:fr fre:fr fry:fy ful:ff geo:ka ger:de gla:gd gle:ga \
    glg:gl glv:gv gre:el grn:gn guj:gu hat:ht hau:ha hbs:sh heb:he her:hz hin:hi hmo:ho hrv:hr hun:hu hye:hy \
    ibo:ig ice:is ido:io iii:ii iku:iu ile:ie ina:ia ind:id ipk:ik isl:is ita:it jav:jv jpn:ja kal:kl kan:kn \
    kas:ks kat:ka kau:kr kaz:kk khm:km kik:ki kin:rw kir:ky kom:kv kon:kg kor:ko kua:kj kur:ku lao:lo lat:la \
    lav:lv lim:li lin:ln lit:lt ltz:lb lub:lu lug:lg mac:mk mah:mh mal:ml mao:mi mar:mr may:ms mkd:mk mlg:mg \
    mlt:mt mon:mn mri:mi msa:ms mya:my nau:na nav:nv nbl:nr nde:nd ndo:ng nep:ne nld:nl nno:nn nob:nb nor:no \
    nya:ny oci:oc oji:oj ori:or orm:om oss:os pan:pa per:fa pli:pi pol:pl por:pt pus:ps que:qu roh:rm ron:ro \
    rum:ro run:rn rus:ru sag:sg san:sa sin:si slk:sk slo:sk slv:sl sme:se smo:sm sna:sn snd:sd som:so sot:st \
    spa:es sqi:sq srd:sc srp:sr ssw:ss sun:su swa:sw swe:sv tah:ty tam:ta tat:tt tel:te tgk:tg tgl:tl tha:th \
    tib:bo tir:ti ton:to tsn:tn tso:ts tuk:tk tur:tr twi:tw uig:ug ukr:uk urd:ur uzb:uz ven:ve vie:vi vol:vo \
    wel:cy wln:wa wol:wo xho:xh yid:yi yor:yo zha:za zho:zh zul:zu";

/// Two letters that were a language once, or stand for several.
const WITHDRAWN: [&str; 6] = ["bh", "in", "iw", "ji", "jw", "mo"];

fn pairs() -> impl Iterator<Item = (&'static str, &'static str)> {
    LONG_AND_SHORT.split(' ').filter_map(|pair| pair.split_once(':'))
}

/// By three letters, the two. Every text in another language asks, in each of thousands of files.
static SHORTER: LazyLock<HashMap<&str, &str>> = LazyLock::new(|| pairs().collect());

static OF_TWO_LETTERS: LazyLock<HashSet<&str>> =
    LazyLock::new(|| pairs().map(|(_, short)| short).chain(WITHDRAWN).collect());

/// The two letters of a language that is written with three.
pub(crate) fn shorter(code: &str) -> Option<&'static str> {
    if code.len() == 3 { SHORTER.get(&*code.to_ascii_lowercase()).copied() } else { None }
}

/// Whether two letters are the code of a language.
pub(crate) fn is_of_two_letters(code: &str) -> bool {
    code.len() == 2 && OF_TWO_LETTERS.contains(&*code.to_ascii_lowercase())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_letters_have_two_where_there_are_such() {
        assert_eq!(
            ["ger", "deu", "DEU", "spa", "chi"].map(shorter).map(Option::unwrap),
            ["de", "de", "de", "es", "zh"]
        );
        assert_eq!(["yue", "nds", "gsw", "fil", "de"].map(shorter), [None; 5]);
    }

    #[test]
    fn all_codes_are_there_once() {
        let mut long: Vec<&str> = pairs().map(|(long, _)| long).collect();
        assert!(long.is_sorted() && pairs().all(|(long, short)| (long.len(), short.len()) == (3, 2)));
        long.dedup();
        // 184 languages, 20 of them with a second code.
        assert_eq!(long.len(), 204);
        assert!(["pt", "EN", "iw"].into_iter().all(is_of_two_letters));
        assert!(!["jp", "dk", "cz", "xx"].into_iter().any(is_of_two_letters));
    }
}
