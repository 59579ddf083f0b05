//! German.

use super::{BeadWords, ColorWords, Counted, EndWords, JoinWords, KindWords, SheetWords, Words};
use knotwright_color::Hue;

pub(super) static WORDS: Words = Words {
    decimal_mark: ",",
    unit_space: "\u{a0}",
    number,
    times: |count| match count {
        1 => "einmal".to_owned(),
        _ => format!("{} Mal", number(count)),
    },
    // What you take is in the accusative: den dritten Faden.
    from_left: |place| format!("den {} Faden von links", ordinal(place)),
    from_right: |place| format!("den {} Faden von rechts", ordinal(place)),
    and: |_| "und",

    materials: "Was du brauchst",
    layout: "Wie die Fäden hängen",
    knots: "Die Knoten",
    opening: "Der Anfang",
    set: "Der Rapport",
    closing: "Der Schluss",
    finish: "Zum Abschluss",
    care: "Vorsicht",

    by: "Von {names}.",
    license: "Lizenz: {license}.",
    mirrored_image: "Dies ist das Spiegelbild des Bandes, für alle, die mit der linken Hand knüpfen: Was links \
                     war, ist jetzt rechts.",
    mirrored_picture: "Für alle, die mit der linken Hand knüpfen: Die Plätze werden von rechts gezählt, und wo \
                       die Reihenfolge der Schritte gleichgültig ist, kommen die rechten zuerst. Das Bild bleibt \
                       gleich.",
    size: "Der geknüpfte Teil wird etwa {length} lang und {width} breit: {sets}, {rows} Knoten.",
    size_overlaps: "Ein Rapport allein hat {rows}; jeder beginnt in den letzten Reihen des vorigen.",
    size_assumed: "Das Muster gibt nicht an, wie lang das Band werden soll; die Längen hier gelten für diese Größe.",
    sets: Counted { one: "ein Rapport", other: "{count} Rapporte" },
    rows: Counted { one: "eine Reihe", other: "{count} Reihen" },
    cut: "Schneide diese Fäden zu:",
    cut_line: "{color}, zusammen {total}: {pieces}",
    pieces: Counted {
        one: "ein Faden zu {length} ({strands})",
        other: "{count} Fäden zu je {length} ({strands})",
    },
    strand_numbers: Counted { one: "Faden {strands}", other: "Fäden {strands}" },
    folded_pieces: Counted {
        one: "ein Faden zu {length}, in der Mitte gefaltet ({strands})",
        other: "{count} Fäden zu je {length}, jeder in der Mitte gefaltet ({strands})",
    },
    reserve: "Eine Reserve ist eingerechnet, ebenso {ends}, die an jedem Ende frei bleiben, und {knot} für jeden Knoten aus allen \
              Fäden.",
    reserve_folded: "Eine Reserve ist eingerechnet, ebenso {ends}, die am Ende frei bleiben, und {knot} für jeden Knoten aus \
                     allen Fäden.",
    from_swatch: "Geschätzt nach der Probe im Muster, auf etwa {percent}\u{a0}% genau.",
    from_thickness: "Geschätzt für {thickness} dickes Garn, auf etwa {percent}\u{a0}% genau. Wer fest knüpft, \
                     braucht weniger, wer locker knüpft, mehr. Im Zweifel länger zuschneiden.",
    from_nothing: "Geschätzt für {thickness} dickes Garn (das Muster nennt keines), auf etwa {percent}\u{a0}% \
                   genau. Anderes Garn braucht andere Längen. Im Zweifel länger zuschneiden.",
    repeats: "Die erste Farbe von {color} kommt alle {repeat} wieder, und jeder Faden beginnt dort: Nacheinander \
              geschnitten, brauchen sie {length}.",
    repeats_folded: "Die erste Farbe von {color} kommt alle {repeat} wieder, und jeder Faden wird dort gefaltet: \
                     Nacheinander geschnitten, brauchen sie {length}.",
    tools: "Außerdem brauchst du eine Schere und eine Klemme oder Klebeband, um das Band am Anfang zu befestigen.",
    tools_needle: "Außerdem brauchst du eine Schere, eine Nadel und eine Klemme oder Klebeband, um das Band am Anfang zu \
                   befestigen.",
    hang_loose: "Lege die Enden zusammen, lass {ends} frei, fasse alle Fäden mit einem einfachen Knoten zusammen \
                 und befestige den Knoten so, dass die Fäden zu dir hin hängen.",
    hang_folded: "Falte jeden Faden in der Mitte und hänge ihn über eine Nadel oder eine Schnur, sodass er zwei \
                  Arbeitsfäden ergibt. Befestige ihn so, dass die Fäden zu dir hin hängen.",
    hang_loop: "Lege die Fäden zusammen, falte sie gemeinsam in der Mitte und fasse sie unter der Mitte so \
                zusammen, dass eine Schlaufe von etwa {loop} bleibt. Befestige die Schlaufe so, dass die Fäden zu \
                dir hin hängen.",
    pairs: "Je zwei hängende Fäden sind ein gefalteter Faden: {pairs}.",
    changes: "{color} wechselt seine Farbe: {colors}, immer wieder. Die Farben fallen wie im Muster, wenn jeder Faden davon \
              an der Spitze seines oberen Endes mit der ersten beginnt.",
    changes_folded: "{color} wechselt seine Farbe: {colors}, immer wieder. Die Farben fallen wie im Muster, wenn jeder \
                     Faden davon dort gefaltet wird, wo die erste beginnt: Der linke der beiden hängenden Fäden geht mit \
                     der ersten weiter, der rechte mit der letzten.",
    changes_for: "{color} auf {length}",
    colors: ColorWords {
        hue,
        pale: "blass{hue}",
        light: "hell{hue}",
        dark: "dunkel{hue}",
        alike: "{color} ({number})",
    },
    lay_out: "Ordne die Fäden von links nach rechts:",
    head_left: "von links",
    head_right: "von rechts",
    head_thread: "Faden",
    counting: "Zähle die Plätze immer so, wie die Fäden gerade hängen.",
    counting_from_right: "Zähle die Plätze immer von rechts und so, wie die Fäden gerade hängen.",
    hitch: "Jeder Knoten besteht aus zwei halben Schlägen des Fadens in der Hand um seinen Nachbarn, den du straff hältst. Zu sehen \
            ist die Farbe des Fadens in der Hand.",

    forward: KindWords {
        name: "vorwärts",
        tie: Counted { one: "knüpfe einen Vorwärtsknoten", other: "knüpfe je einen Vorwärtsknoten" },
        how: "Vorwärtsknoten: Der Faden in der Hand ist der linke der beiden. Lege ihn über seinen rechten Nachbarn, führe ihn \
              darunter hindurch, von unten durch die Schlaufe, und zieh ihn fest; dann noch einmal genauso. Jetzt hängt er rechts \
              vom anderen.",
    },
    backward: KindWords {
        name: "rückwärts",
        tie: Counted { one: "knüpfe einen Rückwärtsknoten", other: "knüpfe je einen Rückwärtsknoten" },
        how: "Rückwärtsknoten: Der Faden in der Hand ist der rechte der beiden. Lege ihn über seinen linken Nachbarn, führe ihn \
              darunter hindurch, von unten durch die Schlaufe, und zieh ihn fest; dann noch einmal genauso. Jetzt hängt er links \
              vom anderen.",
    },
    forward_backward: KindWords {
        name: "vorwärts-rückwärts",
        tie: Counted {
            one: "knüpfe einen Vorwärts-Rückwärts-Knoten",
            other: "knüpfe {count} Vorwärts-Rückwärts-Knoten",
        },
        how: "Vorwärts-Rückwärts-Knoten: Beginne mit der ersten Hälfte eines Vorwärtsknotens und ende mit der zweiten Hälfte eines \
              Rückwärtsknotens. Der Faden in der Hand ist wieder links, wo er war.",
    },
    backward_forward: KindWords {
        name: "rückwärts-vorwärts",
        tie: Counted {
            one: "knüpfe einen Rückwärts-Vorwärts-Knoten",
            other: "knüpfe {count} Rückwärts-Vorwärts-Knoten",
        },
        how: "Rückwärts-Vorwärts-Knoten: Beginne mit der ersten Hälfte eines Rückwärtsknotens und ende mit der zweiten Hälfte eines \
              Vorwärtsknotens. Der Faden in der Hand ist wieder rechts, wo er war.",
    },

    take_times: Counted {
        one: "Nimm {strand} ({color}): {Runs}.",
        other: "Nimm {digits}-mal {strand} ({color}): {Runs}.",
    },
    in_turn: "der Reihe nach {colors}",
    in_turn_again: "der Reihe nach {colors} und so weiter",
    then: ", dann ",
    on_next_left: Counted {
        one: " um den nächsten Faden links",
        other: " um die nächsten {count} Fäden links",
    },
    on_next_right: Counted {
        one: " um den nächsten Faden rechts",
        other: " um die nächsten {count} Fäden rechts",
    },
    on_neighbor_left: " um seinen linken Nachbarn",
    on_neighbor_right: " um seinen rechten Nachbarn",
    to_left_edge: "; er hängt nun am linken Rand",
    to_right_edge: "; er hängt nun am rechten Rand",
    to_middle: "; er hängt nun in der Mitte",
    meet_middle: "Verbinde die beiden mittleren Fäden ({color}).",
    meet: "Verbinde {strand} mit seinem rechten Nachbarn (beide {color}).",
    meet_how: "Wo zwei Fäden verbunden werden, haben beide dieselbe Farbe: Knüpfe mit dem linken von ihnen einen Vorwärtsknoten.",
    meet_how_mirrored: "Wo zwei Fäden verbunden werden, haben beide dieselbe Farbe: Knüpfe mit dem rechten von ihnen einen \
                        Rückwärtsknoten.",
    row: "Reihe: {groups}.",
    numbered_row: "Reihe {number}: {groups}.",
    row_group: "{kind} bei {places} ({color})",
    leader_right: "Führe den Leitfaden ({color}) vom linken Rand ganz nach rechts: {Runs}.",
    leader_left: "Führe den Leitfaden ({color}) vom rechten Rand ganz nach links: {Runs}.",
    leader_ties: Counted {
        one: "er knüpft {kind} um den nächsten Faden",
        other: "er knüpft {kind} um jeden der nächsten {count}",
    },
    strand_ties: Counted {
        one: "der nächste Faden knüpft {kind} um ihn",
        other: "jeder der nächsten {count} knüpft {kind} um ihn",
    },
    repeat: Counted { one: "Mach Folgendes einmal:", other: "Mach Folgendes {digits}-mal:" },
    pass: "Durchgang {number} von {count}:",
    note: "Hinweis: {text}",
    join: JoinWords {
        same: "Stücke {strand}{was} an: Lege ein neues Stück vom selben Garn daneben, je {over} überstehend, \
               und knüpfe mit dem neuen weiter. Die nächsten Knoten halten beide Enden; schneide sie ab, wenn \
               das Band fertig ist.",
        other: "Stücke {strand}{was} an: Lege ein neues Stück {color} daneben, je {over} überstehend, und \
               knüpfe mit dem neuen weiter. Die nächsten Knoten halten beide Enden; schneide sie ab, wenn das \
               Band fertig ist.",
        pieces: Counted {
            one: "ein Faden zu {length} zum Anstücken ({strands})",
            other: "{count} Fäden zu je {length} zum Anstücken ({strands})",
        },
        in_set: "Nur im Rapport {number}: {text}",
    },

    check: "Nun hängen die Fäden so, von links nach rechts: {strands}.",
    check_from_right: "Nun hängen die Fäden so, von rechts nach links: {strands}.",
    check_mirrored: "Nun hängen die Fäden so, von jedem Rand zur Mitte: {strands}.",
    check_mirrored_around: "Nun hängen die Fäden so, von jedem Rand zur Mitte: {strands}, und ganz in der Mitte {middle}.",
    check_after: "Nach Rapport {number}: {strands}.",
    check_after_from_right: "Nach Rapport {number}, von rechts nach links: {strands}.",
    check_as_begun: "Die Farben hängen jetzt wie zu Beginn des Rapports.",
    set_once: "Knüpfe den Rapport einmal.",
    set_times: "Knüpfe den Rapport {digits}-mal untereinander.",
    set_colors: "Die Plätze sind in jedem Rapport dieselben, aber dort hängen andere Farben. Wo Farben der Reihe nach genannt \
                 sind, gilt die erste für den ersten Rapport.",
    set_number: "Rapport {number}",
    sets_go_on: "Die weiteren Rapporte sind wie die Rapporte {first} bis {last}, in dieser Reihenfolge, immer wieder.",
    nothing_tied: "Hier wird nichts geknüpft.",
    wish: "Dieses Bild hat noch keine Knoten: Es gibt keine Schritte, und wie viel Garn es braucht, ist noch nicht bekannt. Der Befehl \
           „knotwright design“ findet die Knoten, die es zeigen, ebenso „Tie this face“ in einem Editor.",
    wish_seen: "Das soll zu sehen sein:",
    wish_row: "Reihe {number}: {colors}",
    any_color: "beliebig",
    finish_text: "Fasse alle Fäden dicht an der letzten Reihe mit einem einfachen Knoten zusammen und schneide \
                  die Enden gleich lang. Du kannst sie flechten und das Band damit schließen.",
    cautions: &[
        "Nicht für Kinder unter drei Jahren: Fäden, Perlen und Schnittreste können verschluckt werden.",
        "Nie eng um Handgelenk oder Knöchel: Zwei Finger müssen unter das Band passen. Lockere es, wenn die Haut Abdrücke zeigt.",
        "Nie um den Hals.",
        "Zum Schlafen, beim Sport und in der Nähe von Maschinen, die es erfassen könnten, ablegen.",
        "Farben können nass abfärben und die Haut reizen: Wasche neues Garn zuerst, und lege das Band ab, wenn die Haut juckt.",
        "Wer Bänder verkauft, ist an die örtlichen Vorschriften für Schmuck und Spielzeug gebunden; sie gehen diesem Blatt vor.",
    ],

    beads: BeadWords {
        buy: "Besorge auch diese Perlen:",
        line: "{count} \u{d7} {bead}, {size} groß, mit einem Loch von {hole}",
        thread: Counted {
            one: "Fädle eine Perle ({bead}) auf {strand} ({color}) und schiebe sie so weit nach oben, wie es geht.",
            other: "Fädle eine Perle ({bead}) durch ein Loch auf {strand} und schiebe sie so weit nach oben, wie es geht.",
        },
        at_end: "Fädle eine Perle ({bead}) mit einer Nadel auf alle Fäden.",
        at_part: "Fädle eine Perle ({bead}) mit einer Nadel auf die Fäden dieses Teils.",
        caution: "Die Perlen sind Kleinteile: Ein Kind kann daran ersticken. Sie können sich mit der Zeit lösen; prüfe das Band ab und zu.",
    },

    ends: EndWords {
        begin: "Der Anfang",
        gather: "Lege die Fäden zusammen, die Enden gleich lang.",
        gather_folded: "Falte jeden Faden in der Mitte und lege die Falten zusammen.",
        knot: "Fasse die Fäden mit einem einfachen Knoten zusammen.",
        plait: "Teile die Fäden in {count} Stränge ({shares}) und flechte sie auf {length}.",
        plait_three: "Lege den linken Strang über den mittleren, dann den rechten über den mittleren, und so weiter.",
        plait_more: "Führe immer den Strang am linken Rand über den nächsten, unter den übernächsten und so fort bis an den \
                     rechten Rand.",
        twist: "Teile die Fäden in zwei Stränge ({shares}). Drehe jeden nach rechts, bis er sich kringelt, und lege die beiden \
                nach links umeinander, auf {length}.",
        plait_three_mirrored: "Lege den rechten Strang über den mittleren, dann den linken über den mittleren, und so weiter.",
        plait_more_mirrored: "Führe immer den Strang am rechten Rand über den nächsten, unter den übernächsten und so fort \
                              bis an den linken Rand.",
        twist_mirrored: "Teile die Fäden in zwei Stränge ({shares}). Drehe jeden nach links, bis er sich kringelt, und lege \
                         die beiden nach rechts umeinander, auf {length}.",
        wrap: "Wickle {thread} {times} um die Fäden, Windung an Windung und über das eigene Ende. Zieh das andere Ende mit \
               einer Nadel unter den Windungen durch und schneide beide ab.",
        split: "Teile die Fäden in {count} Teile ({shares}). Mach mit jedem Teil dies:",
        split_only: "Teile die Fäden in {count} Teile ({shares}).",
        fold_loop: "Lass an der Falte eine Schlaufe von {length} Umfang. Was nun kommt, hält sie.",
        back_loop: "Lege die Fäden zu einer Schlaufe von {length} Umfang zurück und fasse sie an deren Fuß alle mit einem \
                    einfachen Knoten zusammen.",
        tassel: "Lass {length} als Quaste frei und schneide sie gleich lang.",
        tassel_later: "Lass {length} als Quaste frei; schneide sie erst gleich lang, wenn das Band geschlossen ist.",
        tassel_parts: "Lass an jedem Teil {length} als Quaste frei und schneide sie gleich lang.",
        tassel_begun: "Schneide die Quaste am Anfang gleich lang.",
        closing_knot: "Lege das Band um das Handgelenk und knote die beiden Enden zusammen.",
        closing_loop: "Lege das Band um das Handgelenk, steck das andere Ende durch die Schlaufe und mach dahinter \
                       einen einfachen Knoten, damit es nicht zurückrutscht.",
        closing_loop_parts: "Lege das Band um das Handgelenk, steck die {count} Teile des anderen Endes durch die \
                             Schlaufe und knote sie dahinter zusammen.",
        slide: "Lege die beiden Enden so nebeneinander, dass sie in entgegengesetzte Richtungen zeigen. Wickle \
                {thread} {times} um beide, Windung an Windung und über das eigene Ende. Zieh das andere Ende mit einer \
                Nadel unter den Windungen durch und schneide beide ab.",
        slide_tips: "Knote die Spitze jedes Endes, damit es nicht herausrutscht.",
        slide_tip: "Knote die Spitze des Endes, das noch keinen Knoten hat, damit es nicht herausrutscht.",
        slide_knotted: "Die Knoten an ihren Spitzen halten sie fest.",
        trim: "Schneide ab, was übersteht.",
        each: Counted { one: "je ein Faden", other: "je {count} Fäden" },
        shares: "{shares} Fäden, von links",
        shares_mirrored: "{shares} Fäden, von rechts",
        shares_smaller: "{larger}; in einem kleineren Teil {smaller}",
        fasten: "Befestige den Anfang so, dass die Fäden zu dir hin hängen.",
        own_pieces: Counted {
            one: "ein Faden von {length} zum Umwickeln eines Endes",
            other: "{count} Fäden von je {length}, jeder zum Umwickeln eines Endes",
        },
        reserve_both: "Eine Reserve ist eingerechnet, ebenso was die Enden brauchen.",
        reserve_one: "Eine Reserve ist eingerechnet, ebenso was das eine Ende braucht, {ends}, die am anderen Ende frei bleiben, \
                      und {knot} für den Knoten, der dieses hält.",
        caution_closed: "Ein Band, das um das Handgelenk geschlossen ist, geht nicht von selbst auf, wenn es hängen bleibt.",
        caution_needle: "Eine Nadel ist spitz: Zähle deine Nadeln vorher und nachher und halte sie von Kindern fern.",
        done: "Alles ist geknüpft, und die Enden sind fertig.",
        hows: [
            "Einfacher Knoten: Lege alle Fäden zusammen zu einer Schlinge, zieh ihre Spitzen hindurch und schieb den \
             Knoten an seinen Platz, bevor du ihn festziehst.",
            "Flechten: Halte die Stränge mit den Fingern auseinander und zieh sie nach jedem Überkreuzen gleich fest \
             an. Miss die Flechte, wie sie liegt, nicht gedehnt.",
            "Kordel: Halte die Spitzen beider Stränge, während sie sich umeinanderlegen; was du loslässt, dreht sich \
             wieder auf.",
            "Umwickeln: Lege das eine Ende des Fadens die Fäden entlang und wickle fest darüber. Zieh an beiden Enden, \
             wenn alle Windungen liegen.",
            "Schlaufe: Halte sie mit einem Stift offen, während du machst, was sie hält.",
            "Quaste: Miss vom letzten Knoten aus, kämme die Fäden gerade und schneide sie alle auf einmal ab.",
            "Perle: Nimm einen oder zwei Fäden auf einmal in die Nadel und zieh sie durch das Loch, bis alle darin \
             sind.",
            "Schließen: Unter dem Band müssen zwei Finger Platz haben, während du den Knoten machst.",
            "Schieben: Wickle fest, aber so, dass sich beide Enden noch hindurchziehen lassen.",
        ],
    },

    sheet: SheetWords {
        ends_scale: "Die Enden sind nicht maßstäblich gezeichnet.",
        picture: "Das Band",
        follow: "Schritt für Schritt",
        back: "Zurück",
        done: "Fertig, weiter",
        whole_set_done: "Zum nächsten Rapport",
        begin_again: "Von vorn",
        begin_again_sure: "Wieder beim ersten Schritt beginnen?",
        times: "Du hast hier {knots} Knoten in {minutes} min geknüpft, Pausen nicht gezählt.",
        save_times: "Diese Zeiten speichern",
        keys: "Tasten: Pfeil rechts oder Eingabetaste für den nächsten Schritt, Pfeil links für den vorherigen.",
        where_set: "Rapport {set} von {sets}",
        where_opening: "Anfang",
        where_closing: "Schluss",
        step_of: "Schritt {step} von {steps}",
        hangs_before: "So hängen die Fäden jetzt",
        hangs_after: "Nach diesem Schritt",
        finished: "Alles ist geknüpft. Jetzt fehlen nur noch die Enden.",
        all_steps: "Alle Schritte",
        no_script: "Skripte sind ausgeschaltet, darum erscheinen die Schritte nicht einzeln; unten findest du alle.",
        not_kept: "Dieser Browser speichert nichts für diese Seite: Wenn du sie schließt, geht deine Stelle \
                   verloren.",
        in_hand: "in der Hand",
        chart: "Die Knüpfschrift",
        cut_off: "Hake jeden zugeschnittenen Faden ab:",
        sets_tied: "Hake jeden geknüpften Rapport ab:",
        set_box: "Rapport {number}",
        how: "So geht der Knoten",
        strip: "Das Band rund um diesen Schritt",
        lost: "Ich weiß nicht, wo ich bin",
        lost_how: "Tippe die Fäden an, wie sie jetzt hängen, von links nach rechts:",
        lost_remove: "Den letzten entfernen",
        lost_fits: "So hängen sie hier: {where}, vor Schritt {step}.",
        lost_end: "So hängen sie, wenn alles geknüpft ist.",
        lost_fits_none: "So hängen sie bei keinem Schritt.",
        lost_fits_more: "Gleich geknüpfte Rapporte sehen gleich aus: Deine Häkchen zeigen, welcher es ist.",
        lost_near_end: "Fast so: wenn alles geknüpft ist (Nachbarn, die dafür zu tauschen sind: {swaps}).",
        lost_near: "Fast so: {where}, vor Schritt {step} (Nachbarn, die dafür zu tauschen sind: {swaps}).",
        lost_untie: "Nur {one} an Platz {left} und {other} an Platz {right} hängen dort vertauscht. Die beiden wurden zuletzt hier miteinander verknüpft: {where}, Schritt {step}. Liegt der Fehler in diesem Knoten, dann löse alles bis zu ihm und knüpfe ihn neu.",
        lost_go: "Dorthin",
        awake: "Bildschirm eingeschaltet lassen",
        threads: "Die Fäden",
        drawing: "{kind}: erster halber Schlag, zweiter halber Schlag, festgezogen",
        chart_words: [
            "vorwärts: links über rechts, sie tauschen die Plätze",
            "rückwärts: rechts über links, sie tauschen die Plätze",
            "vorwärts-rückwärts: links über rechts, jeder bleibt",
            "rückwärts-vorwärts: rechts über links, jeder bleibt",
            "der Leitfaden knüpft um den Faden",
            "der Faden knüpft um den Leitfaden",
            "soll hier zu sehen sein; noch nicht geknüpft",
            "hier geht der Faden mit einem neuen Stück weiter",
            "breit: der Faden, der knüpft; schmal: der, um den er knüpft",
            "Reihe für Reihe von oben; in der Reihe beliebig",
            "die Nummer steht an der Seite, an der du die Reihe beginnst",
            "die Enden sind nicht maßstäblich gezeichnet",
            "Rapporte",
            "Die Rapporte {numbers} sind hier nicht gezeigt: Folge den Schritten.",
            "Der Rapport {numbers} ist hier nicht gezeigt: Folge den Schritten.",
        ],
    },
};

fn hue(hue: Hue) -> &'static str {
    match hue {
        Hue::White => "weiß",
        Hue::Gray => "grau",
        Hue::Black => "schwarz",
        Hue::Red => "rot",
        Hue::Orange => "orange",
        Hue::Brown => "braun",
        Hue::Yellow => "gelb",
        Hue::Green => "grün",
        Hue::Turquoise => "türkis",
        Hue::Blue => "blau",
        Hue::Purple => "lila",
        Hue::Pink => "rosa",
    }
}

fn number(count: u64) -> String {
    const WORDS: [&str; 13] = [
        "kein", "ein", "zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht", "neun", "zehn", "elf",
        "zwölf",
    ];
    let word = usize::try_from(count).ok().and_then(|count| WORDS.get(count));
    word.map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

/// In the accusative, masculine: den dritten.
fn ordinal(place: u64) -> String {
    const WORDS: [&str; 13] = [
        "",
        "ersten",
        "zweiten",
        "dritten",
        "vierten",
        "fünften",
        "sechsten",
        "siebten",
        "achten",
        "neunten",
        "zehnten",
        "elften",
        "zwölften",
    ];
    let word = usize::try_from(place).ok().and_then(|place| WORDS.get(place));
    word.map_or_else(|| format!("{place}."), |word| (*word).to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_taken_is_in_the_accusative() {
        assert_eq!((WORDS.from_right)(3), "den dritten Faden von rechts");
        assert_eq!((WORDS.from_left)(13), "den 13. Faden von links");
    }
}
