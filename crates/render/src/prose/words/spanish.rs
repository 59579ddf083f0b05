//! Spanish.

use super::{Counted, KindWords, SheetWords, Words};

pub(super) static WORDS: Words = Words {
    decimal_mark: ",",
    number,
    from_left: |place| format!("{} desde la izquierda", strand(place)),
    from_right: |place| format!("{} desde la derecha", strand(place)),
    and: "y",

    materials: "Lo que necesitas",
    layout: "Cómo cuelgan las hebras",
    knots: "Los nudos",
    opening: "El comienzo",
    set: "La repetición",
    closing: "El cierre",
    finish: "Para terminar",
    care: "Cuidado",

    by: "De {names}.",
    license: "Licencia: {license}.",
    mirrored_image: "Esta es la pulsera en un espejo: todo lo que estaba a la izquierda está a la derecha. Es cómoda para quien \
                     prefiere empezar por la derecha.",
    mirrored_picture: "Para quien prefiere empezar por la derecha: los lugares se cuentan desde la derecha, y lo que puede anudarse en \
                       cualquier orden se anuda desde la derecha. El dibujo es el mismo.",
    size: "La parte anudada medirá unos {length} de largo y {width} de ancho: {sets}, {rows} de nudos.",
    size_assumed: "El diseño no dice cuánto debe medir la pulsera; las medidas de aquí son para este tamaño.",
    sets: Counted { one: "una repetición", other: "{count} repeticiones" },
    rows: Counted { one: "una fila", other: "{count} filas" },
    cut: "Corta estos hilos:",
    cut_line: "{color}, {total} en total: {pieces}",
    pieces: Counted {
        one: "un hilo de {length} ({strands})",
        other: "{count} hilos de {length} ({strands})",
    },
    strand_numbers: Counted { one: "hebra {strands}", other: "hebras {strands}" },
    folded_pieces: Counted {
        one: "un hilo de {length}, doblado por la mitad ({strands})",
        other: "{count} hilos de {length}, cada uno doblado por la mitad ({strands})",
    },
    reserve: "Ya incluye una reserva y {ends} que quedan libres en cada extremo.",
    reserve_folded: "Ya incluye una reserva y {ends} que quedan libres al final.",
    from_swatch: "Calculado a partir de la muestra que acompaña al diseño, con un margen de un {percent} %.",
    from_thickness: "Calculado para hilo de {thickness} de grosor, con un margen de un {percent} %. Quien aprieta mucho necesita menos; \
                     quien aprieta poco, más: en la duda, corta más largo.",
    from_nothing: "Calculado para hilo de {thickness} de grosor, pues el diseño no dice cuál, y con un margen de un {percent} % para \
                   ese hilo. Con otro hilo cambian las medidas: en la duda, corta más largo.",
    tools: "Además, tijeras y una pinza o cinta adhesiva para sujetar la pulsera por el comienzo.",
    hang_loose: "Junta los extremos, deja {ends} libres, une todas las hebras con un nudo simple y sujeta ese nudo de modo que las hebras \
                 cuelguen hacia ti.",
    hang_folded: "Dobla cada hilo por la mitad y cuélgalo de un alfiler o de un cordón, de modo que dé dos hebras. Sujétalo de modo que las \
                  hebras cuelguen hacia ti.",
    hang_loop: "Junta los hilos, dóblalos todos por la mitad y átalos por debajo del doblez, de modo que quede una presilla de unos {loop}. \
                Sujeta la presilla de modo que las hebras cuelguen hacia ti.",
    pairs: "Dos hebras que son un mismo hilo: {pairs}.",
    lay_out: "Ordena las hebras de izquierda a derecha:",
    head_left: "desde la izquierda",
    head_right: "desde la derecha",
    head_thread: "hilo",
    counting: "Los lugares se cuentan siempre según cuelgan las hebras en ese momento.",
    counting_from_right: "Los lugares se cuentan siempre desde la derecha, según cuelgan las hebras en ese momento.",
    hitch: "Cada nudo son dos medios cotes de la hebra que tienes en la mano sobre su vecina, que mantienes tensa. El color que se ve es el \
            de la hebra que tienes en la mano.",

    forward: KindWords {
        name: "hacia delante",
        tie: Counted { one: "haz un nudo hacia delante", other: "haz un nudo hacia delante" },
        how: "Nudo hacia delante: la hebra que tienes en la mano es la izquierda de las dos. Pásala por encima de su vecina derecha, por \
              debajo y hacia arriba por el lazo, y aprieta; hazlo otra vez igual. Ahora cuelga a la derecha de la otra.",
    },
    backward: KindWords {
        name: "hacia atrás",
        tie: Counted { one: "haz un nudo hacia atrás", other: "haz un nudo hacia atrás" },
        how: "Nudo hacia atrás: la hebra que tienes en la mano es la derecha de las dos. Pásala por encima de su vecina izquierda, por debajo \
              y hacia arriba por el lazo, y aprieta; hazlo otra vez igual. Ahora cuelga a la izquierda de la otra.",
    },
    forward_backward: KindWords {
        name: "delante-atrás",
        tie: Counted { one: "haz un nudo delante-atrás", other: "haz {count} nudos delante-atrás" },
        how: "Nudo delante-atrás: empieza con la primera mitad de un nudo hacia delante y acaba con la segunda mitad de un nudo hacia atrás. La \
              hebra que tienes en la mano vuelve a la izquierda, donde estaba.",
    },
    backward_forward: KindWords {
        name: "atrás-delante",
        tie: Counted { one: "haz un nudo atrás-delante", other: "haz {count} nudos atrás-delante" },
        how: "Nudo atrás-delante: empieza con la primera mitad de un nudo hacia atrás y acaba con la segunda mitad de un nudo hacia delante. La \
              hebra que tienes en la mano vuelve a la derecha, donde estaba.",
    },

    take_times: Counted {
        one: "Toma {strand} ({color}): {runs}.",
        other: "{Count} veces, toma {strand} ({color}): {runs}.",
    },
    in_turn: "por turno {colors}",
    in_turn_again: "por turno {colors}, y así sucesivamente",
    then: "; luego ",
    on_next_left: Counted {
        one: " sobre la siguiente hebra a la izquierda",
        other: " sobre cada una de las {count} hebras siguientes a la izquierda",
    },
    on_next_right: Counted {
        one: " sobre la siguiente hebra a la derecha",
        other: " sobre cada una de las {count} hebras siguientes a la derecha",
    },
    on_neighbor_left: " sobre su vecina izquierda",
    on_neighbor_right: " sobre su vecina derecha",
    to_left_edge: ", hasta el borde izquierdo",
    to_right_edge: ", hasta el borde derecho",
    to_middle: ", hasta el centro",
    meet_middle: "Une las dos hebras del centro ({color}).",
    meet: "Une {strand} con su vecina derecha (las dos {color}).",
    meet_how: "Donde se unen dos hebras, las dos son del mismo color: haz con la izquierda un nudo hacia delante.",
    row: "Fila: {groups}.",
    numbered_row: "Fila {number}: {groups}.",
    row_group: "{kind} en {places} ({color})",
    leader_right: "Lleva la hebra guía ({color}) desde el borde izquierdo hasta el derecho: {runs}.",
    leader_left: "Lleva la hebra guía ({color}) desde el borde derecho hasta el izquierdo: {runs}.",
    leader_ties: Counted {
        one: "anuda {kind} sobre la siguiente hebra",
        other: "anuda {kind} sobre cada una de las {count} siguientes",
    },
    strand_ties: Counted {
        one: "la siguiente hebra anuda {kind} sobre ella",
        other: "cada una de las {count} siguientes anuda {kind} sobre ella",
    },
    repeat: Counted { one: "Haz esto una vez:", other: "Haz esto {count} veces:" },
    pass: "Vez {number} de {count}:",
    note: "Nota: {text}",

    check: "Ahora las hebras cuelgan así, de izquierda a derecha: {strands}.",
    check_mirrored: "Ahora las hebras cuelgan así, de cada borde al centro: {strands}.",
    check_mirrored_around: "Ahora las hebras cuelgan así, de cada borde al centro: {strands}, y justo en el centro {middle}.",
    check_after: "Tras la repetición {number}: {strands}.",
    check_as_begun: "Los colores cuelgan como al empezar la repetición.",
    set_once: "Anuda la repetición una vez.",
    set_times: "Anuda la repetición {count} veces, una debajo de otra.",
    set_colors: "Los lugares son los mismos en cada repetición, pero cuelgan allí otros colores. Donde hay colores por turno, el primero es el de \
                 la primera repetición.",
    set_number: "Repetición {number}",
    sets_go_on: "Las repeticiones siguientes son como las repeticiones {first} a {last}, en ese orden, una y otra vez.",
    nothing_tied: "Aquí no se anuda nada.",
    finish_text: "Une todas las hebras con un nudo simple junto a la última fila y recorta los extremos. Se pueden trenzar para cerrar con ellos \
                  la pulsera.",
    cautions: &[
        "No es para menores de tres años: los hilos, las cuentas y los recortes se pueden tragar.",
        "Nunca apretada a la muñeca o al tobillo: debe caber un dedo debajo. Aflójala si deja marcas en la piel.",
        "Nunca alrededor del cuello.",
        "Quítatela para dormir, para hacer deporte y cerca de máquinas que puedan engancharla.",
        "Las cuentas pequeñas se sueltan con el tiempo; revisa la pulsera de vez en cuando.",
        "Los tintes pueden desteñir al mojarse e irritar la piel: lava antes el hilo nuevo, y quítate la pulsera si pica.",
        "Quien vende pulseras debe cumplir las normas locales sobre joyas y juguetes, que prevalecen sobre esta hoja.",
    ],

    sheet: SheetWords {
        picture: "La pulsera",
        follow: "Paso a paso",
        back: "Atrás",
        done: "Hecho, siguiente",
        whole_set_done: "A la repetición siguiente",
        begin_again: "Empezar de nuevo",
        begin_again_sure: "¿Empezar de nuevo por el primer paso?",
        keys: "Teclas: flecha derecha o Intro para el paso siguiente, flecha izquierda para el anterior.",
        where_set: "Repetición {set} de {sets}",
        where_opening: "Comienzo",
        where_closing: "Cierre",
        step_of: "paso {step} de {steps}",
        hangs_before: "Así cuelgan ahora",
        hangs_after: "Después de este paso",
        finished: "Todo está anudado. Ahora, los extremos.",
        all_steps: "Todos los pasos",
        no_script: "Aquí no se ejecutan guiones, así que los pasos no se muestran de uno en uno; abajo están todos.",
        not_kept: "Este navegador no guarda datos de esta página: al cerrarla se olvida por dónde ibas.",
        in_hand: "en la mano",
        chart: "El esquema",
        cut_off: "Marca lo que ya está cortado:",
        sets_tied: "Marca cada repetición anudada:",
        set_box: "repetición {number}",
        chart_words: [
            "hacia delante: izquierda sobre derecha, cambian de lugar",
            "hacia atrás: derecha sobre izquierda, cambian de lugar",
            "delante-atrás: izquierda sobre derecha, cada una queda",
            "atrás-delante: derecha sobre izquierda, cada una queda",
            "la guía anuda sobre la hebra",
            "la hebra anuda sobre la guía",
            "ancha: la hebra que anuda; fina: sobre la que se anuda",
            "fila por fila desde arriba; dentro de la fila, como quieras",
            "la fila de la guía empieza por este lado",
        ],
    },
};

/// Feminine, as all that is counted here in words is: hebras, veces.
fn number(count: u64) -> String {
    const WORDS: [&str; 13] = [
        "ninguna", "una", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve", "diez", "once",
        "doce",
    ];
    let word = usize::try_from(count).ok().and_then(|count| WORDS.get(count));
    word.map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

/// Ordinals beyond the tenth are hardly read: the strand is then named by its number.
fn strand(place: u64) -> String {
    const WORDS: [&str; 11] = [
        "", "primera", "segunda", "tercera", "cuarta", "quinta", "sexta", "séptima", "octava", "novena",
        "décima",
    ];
    let word = usize::try_from(place).ok().and_then(|place| WORDS.get(place));
    word.map_or_else(|| format!("la hebra número {place}"), |word| format!("la {word} hebra"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strands_are_feminine_and_numbered_beyond_the_tenth() {
        assert_eq!((WORDS.from_left)(3), "la tercera hebra desde la izquierda");
        assert_eq!((WORDS.from_right)(11), "la hebra número 11 desde la derecha");
        assert_eq!(number(1), "una");
    }
}
