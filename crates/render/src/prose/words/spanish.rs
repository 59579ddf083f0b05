//! Spanish.

use super::{BeadWords, ColorWords, Counted, EndWords, JoinWords, KindWords, SheetWords, Words};
use knotwright_color::Hue;

pub(super) static WORDS: Words = Words {
    decimal_mark: ",",
    unit_space: "\u{a0}",
    number,
    times: |count| match count {
        1 => "una vez".to_owned(),
        _ => format!("{} veces", number(count)),
    },
    from_left: |place| format!("{} desde la izquierda", strand(place)),
    from_right: |place| format!("{} desde la derecha", strand(place)),
    and,

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
    mirrored_image: "Esta es la imagen reflejada de la pulsera, para personas zurdas: lo que estaba a la \
                     izquierda está a la derecha.",
    mirrored_picture: "Para personas zurdas: los lugares se cuentan desde la derecha y, donde el orden de los \
                       pasos no importa, van primero los de la derecha. El dibujo es el mismo.",
    size: "La parte anudada medirá unos {length} de largo y {width} de ancho: {sets}, {rows} de nudos.",
    size_overlaps: "Una repetición sola tiene {rows}; cada una empieza en las últimas filas de la anterior.",
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
    reserve: "Las medidas ya incluyen una reserva, {ends} libres en cada extremo y {knot} para cada nudo de todas las \
              hebras.",
    reserve_folded: "Las medidas ya incluyen una reserva, {ends} libres al final y {knot} para cada nudo de todas las \
                     hebras.",
    from_swatch: "Calculado a partir de la muestra del diseño, con un margen de error de un {percent}\u{a0}%.",
    from_thickness: "Calculado para hilo de {thickness} de grosor, con un margen de error de un \
                     {percent}\u{a0}%. Si aprietas mucho, necesitas menos; si aprietas poco, más. Ante la duda, \
                     corta más largo.",
    from_nothing: "Calculado para hilo de {thickness} de grosor (el diseño no indica ninguno), con un margen de \
                   error de un {percent}\u{a0}%. Con otro hilo cambian las medidas: ante la duda, corta más largo.",
    repeats: "El primer color de {color} vuelve cada {repeat}, y cada hilo empieza ahí: cortados uno tras otro, necesitan \
              {length}.",
    repeats_folded: "El primer color de {color} vuelve cada {repeat}, y cada hilo se dobla ahí: cortados uno tras otro, \
                     necesitan {length}.",
    tools: "También necesitas tijeras y una pinza o cinta adhesiva para sujetar la pulsera por el comienzo.",
    tools_needle: "También necesitas tijeras, una aguja y una pinza o cinta adhesiva para sujetar la pulsera por el comienzo.",
    hang_loose: "Junta los extremos, deja {ends} libres, une todas las hebras con un nudo simple y sujeta ese nudo de modo que las hebras \
                 cuelguen hacia ti.",
    hang_folded: "Dobla cada hilo por la mitad y cuélgalo de un alfiler o de un cordón, de modo que forme dos hebras. Sujétalo de modo que las \
                  hebras cuelguen hacia ti.",
    hang_loop: "Junta los hilos, dóblalos todos por la mitad y átalos por debajo del doblez, de modo que quede una presilla de unos {loop}. \
                Sujeta la presilla de modo que las hebras cuelguen hacia ti.",
    pairs: "Dos hebras que son un mismo hilo: {pairs}.",
    changes: "{color} cambia de color a lo largo: {colors}, una y otra vez. Los colores caen como en el patrón si cada hebra \
              empieza con el primero, en la punta de su extremo superior.",
    changes_folded: "{color} cambia de color a lo largo: {colors}, una y otra vez. Los colores caen como en el patrón si cada \
                     hilo se dobla donde empieza el primero: de sus dos hebras, la izquierda sigue con el primero y la \
                     derecha con el último.",
    changes_for: "{color} durante {length}",
    colors: ColorWords {
        hue,
        pale: "{hue} pálido",
        light: "{hue} claro",
        dark: "{hue} oscuro",
        alike: "{color} ({number})",
    },
    lay_out: "Ordena las hebras de izquierda a derecha:",
    head_left: "desde la izquierda",
    head_right: "desde la derecha",
    head_thread: "hilo",
    counting: "Los lugares se cuentan siempre según cuelgan las hebras en ese momento.",
    counting_from_right: "Los lugares se cuentan siempre desde la derecha, según cuelgan las hebras en ese momento.",
    hitch: "Cada nudo consta de dos medios cotes de la hebra que tienes en la mano sobre su vecina, que mantienes tensa. El color que se \
            ve es el de la hebra que tienes en la mano.",

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
        other: "Toma {count} veces {strand} ({color}): {runs}.",
    },
    in_turn: "en este orden: {colors}",
    in_turn_again: "en este orden: {colors}, y así sucesivamente",
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
    to_left_edge: "; ahora está en el borde izquierdo",
    to_right_edge: "; ahora está en el borde derecho",
    to_middle: "; ahora está en el centro",
    meet_middle: "Une las dos hebras del centro ({color}).",
    meet: "Une {strand} con su vecina derecha (las dos {color}).",
    meet_how: "Donde se unen dos hebras, las dos son del mismo color: haz con la izquierda un nudo hacia delante.",
    meet_how_mirrored: "Donde se unen dos hebras, las dos son del mismo color: haz con la derecha un nudo hacia atrás.",
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
    join: JoinWords {
        same: "Empalma {strand}{was}: pon a su lado un trozo nuevo del mismo hilo, con {over} de sobra en cada \
               uno, y sigue con el nuevo. Los nudos siguientes sujetan los dos cabos; recórtalos cuando la \
               pulsera esté terminada.",
        other: "Empalma {strand}{was}: pon a su lado un trozo nuevo de {color}, con {over} de sobra en cada \
               uno, y sigue con el nuevo. Los nudos siguientes sujetan los dos cabos; recórtalos cuando la \
               pulsera esté terminada.",
        pieces: Counted {
            one: "un hilo de {length} para empalmar ({strands})",
            other: "{count} hilos de {length} para empalmar ({strands})",
        },
        in_set: "Solo en la repetición {number}: {text}",
    },

    check: "Ahora las hebras cuelgan así, de izquierda a derecha: {strands}.",
    check_from_right: "Ahora las hebras cuelgan así, de derecha a izquierda: {strands}.",
    check_mirrored: "Ahora las hebras cuelgan así, de cada borde al centro: {strands}.",
    check_mirrored_around: "Ahora las hebras cuelgan así, de cada borde al centro: {strands}, y justo en el centro {middle}.",
    check_after: "Tras la repetición {number}: {strands}.",
    check_after_from_right: "Tras la repetición {number}, de derecha a izquierda: {strands}.",
    check_as_begun: "Los colores cuelgan como al empezar la repetición.",
    set_once: "Anuda la repetición una vez.",
    set_times: "Anuda la repetición {count} veces, una debajo de otra.",
    set_colors: "Los lugares son los mismos en cada repetición, pero allí cuelgan otros colores. Donde se enumeran varios colores, el \
                 primero es el de la primera repetición.",
    set_number: "Repetición {number}",
    sets_go_on: "Las repeticiones siguientes son como las repeticiones {first} a {last}, en ese orden, una y otra vez.",
    nothing_tied: "Aquí no se anuda nada.",
    wish: "Este dibujo todavía no tiene nudos: no hay pasos, y aún no se sabe cuánto hilo necesita. La orden \
           «knotwright design» encuentra los nudos que lo muestran, y también «Tie this face» en un editor.",
    wish_seen: "Esto debe verse:",
    wish_row: "Fila {number}: {colors}",
    any_color: "cualquier color",
    finish_text: "Une todas las hebras con un nudo simple junto a la última fila y recorta los extremos. Puedes \
                  trenzarlos para cerrar la pulsera.",
    cautions: &[
        "No es para menores de tres años: los hilos, las cuentas y los recortes se pueden tragar.",
        "Nunca apretada en la muñeca ni en el tobillo: deben caber dos dedos debajo. Aflójala si deja marcas en la piel.",
        "Nunca alrededor del cuello.",
        "Quítatela para dormir, para hacer deporte y cerca de máquinas que puedan engancharla.",
        "Los tintes pueden desteñir al mojarse e irritar la piel: lava antes el hilo nuevo, y quítate la pulsera si pica.",
        "Si vendes pulseras, cumple las normas locales sobre joyas y juguetes, que prevalecen sobre esta hoja.",
    ],

    beads: BeadWords {
        buy: "Consigue también estas cuentas:",
        line: "{count} \u{d7} {bead}, de {size}, con un agujero de {hole}",
        thread: Counted {
            one: "Ensarta una cuenta ({bead}) en {strand} ({color}) y súbela hasta donde llegue.",
            other: "Ensarta una cuenta ({bead}) por un mismo agujero en {strand} y súbela hasta donde llegue.",
        },
        at_end: "Ensarta una cuenta ({bead}) en todas las hebras con una aguja.",
        at_part: "Ensarta una cuenta ({bead}) en las hebras de esta parte con una aguja.",
        caution: "Las cuentas son piezas pequeñas: un niño puede atragantarse con ellas. Pueden soltarse con el tiempo; revisa la pulsera de vez en cuando.",
    },

    ends: EndWords {
        begin: "El comienzo",
        gather: "Junta las hebras con los extremos a la misma altura.",
        gather_folded: "Dobla cada hilo por la mitad y junta los dobleces.",
        knot: "Une las hebras con un nudo simple.",
        plait: "Reparte las hebras en {count} mechones ({shares}) y trénzalos a lo largo de {length}.",
        plait_three: "Pasa el mechón izquierdo por encima del central, luego el derecho por encima del central, y así sucesivamente.",
        plait_more: "Pasa siempre el mechón del borde izquierdo por encima del siguiente, por debajo del que viene después, y así \
                     hasta el borde derecho.",
        twist: "Reparte las hebras en dos mechones ({shares}). Retuerce cada uno hacia la derecha hasta que se enrosque y enrolla \
                uno con otro hacia la izquierda, a lo largo de {length}.",
        plait_three_mirrored: "Pasa el mechón derecho por encima del central, luego el izquierdo por encima del central, y así sucesivamente.",
        plait_more_mirrored: "Pasa siempre el mechón del borde derecho por encima del siguiente, por debajo del que viene después, y \
                              así hasta el borde izquierdo.",
        twist_mirrored: "Reparte las hebras en dos mechones ({shares}). Retuerce cada uno hacia la izquierda hasta que se enrosque \
                         y enrolla uno con otro hacia la derecha, a lo largo de {length}.",
        wrap: "Enrolla {thread} {times} alrededor de las hebras, vuelta junto a vuelta y por encima de su propio extremo. Pasa el \
               otro extremo por debajo de las vueltas con una aguja y recorta los dos.",
        split: "Reparte las hebras en {count} partes ({shares}). Haz esto con cada parte:",
        split_only: "Reparte las hebras en {count} partes ({shares}).",
        fold_loop: "Deja en el doblez una presilla de {length} de contorno. Lo que sigue la sujeta.",
        back_loop: "Dobla las hebras hacia atrás para formar una presilla de {length} de contorno y átalas todas por su base con un \
                    nudo simple.",
        tassel: "Deja {length} libres como borla e iguala las puntas.",
        tassel_later: "Deja {length} libres como borla; iguala las puntas cuando la pulsera esté cerrada.",
        tassel_parts: "Deja {length} libres como borla en cada parte e iguala las puntas.",
        tassel_begun: "Iguala las puntas de la borla del comienzo.",
        closing_knot: "Pon la pulsera alrededor de la muñeca y anuda los dos extremos.",
        closing_loop: "Pon la pulsera alrededor de la muñeca, pasa el otro extremo por la presilla y haz detrás un \
                       nudo simple para que no se salga.",
        closing_loop_parts: "Pon la pulsera alrededor de la muñeca, pasa las {count} partes del otro extremo por la \
                             presilla y anúdalas juntas por detrás.",
        slide: "Coloca los dos extremos uno junto al otro, de modo que apunten en sentidos opuestos. Enrolla {thread} \
                {times} alrededor de ambos, vuelta junto a vuelta y por encima de su propio extremo. Pasa el otro \
                extremo por debajo de las vueltas con una aguja y recorta los dos.",
        slide_tips: "Anuda la punta de cada extremo para que no se salga.",
        slide_tip: "Anuda la punta del extremo que no tiene nudo para que no se salga.",
        slide_knotted: "Los nudos de las puntas evitan que se salgan.",
        trim: "Recorta lo que sobra.",
        each: Counted { one: "una hebra en cada uno", other: "{count} hebras en cada uno" },
        shares: "{shares} hebras, desde la izquierda",
        shares_mirrored: "{shares} hebras, desde la derecha",
        shares_smaller: "{larger}; en una parte más pequeña {smaller}",
        fasten: "Sujeta el comienzo de modo que las hebras cuelguen hacia ti.",
        own_pieces: Counted {
            one: "un hilo de {length} para enrollar en un extremo",
            other: "{count} hilos de {length}, cada uno para enrollar en un extremo",
        },
        reserve_both: "Las medidas ya incluyen una reserva y lo que necesitan los extremos.",
        reserve_one: "Las medidas ya incluyen una reserva, lo que necesita un extremo, {ends} libres en el otro y {knot} para el \
                      nudo que lo sujeta.",
        caution_closed: "Una pulsera cerrada alrededor de la muñeca no se abre sola si se engancha.",
        caution_needle: "Las agujas pinchan: cuéntalas antes y después, y no las dejes al alcance de los niños.",
        done: "Todo está anudado y los extremos están hechos.",
        hows: [
            "Nudo simple: forma un solo lazo con todas las hebras, pasa las puntas por él y lleva el nudo a su sitio \
             antes de apretarlo.",
            "Trenza: separa los mechones con los dedos y apriétalos después de cada cruce, siempre por igual. Mide la \
             trenza tal como queda, sin estirarla.",
            "Cordón: sujeta las puntas de los dos mechones mientras se enrollan; lo que sueltas se desenrolla.",
            "Enrollado: pon un extremo del hilo a lo largo de las hebras y enrolla por encima, con firmeza. Tira de los \
             dos extremos cuando estén todas las vueltas.",
            "Presilla: mantenla abierta con un lápiz mientras haces lo que la sujeta.",
            "Borla: mide desde el último nudo, peina las hebras y córtalas todas a la vez.",
            "Cuenta: enhebra una o dos hebras cada vez y pásalas por el agujero hasta que estén todas.",
            "Nudo de cierre: deben caber dos dedos bajo la pulsera mientras lo haces.",
            "Cierre corredizo: enrolla con firmeza, pero de modo que los dos extremos aún puedan deslizarse.",
        ],
    },

    sheet: SheetWords {
        ends_scale: "Los extremos no están dibujados a escala.",
        picture: "La pulsera",
        follow: "Paso a paso",
        back: "Atrás",
        done: "Hecho, siguiente",
        whole_set_done: "Ir a la repetición siguiente",
        begin_again: "Empezar de nuevo",
        begin_again_sure: "¿Empezar de nuevo por el primer paso?",
        times: "Aquí has hecho {knots} nudos en {minutes} min, sin contar las pausas.",
        save_times: "Guardar estos tiempos",
        keys: "Teclas: flecha derecha o Intro para el paso siguiente, flecha izquierda para el anterior.",
        where_set: "Repetición {set} de {sets}",
        where_opening: "Comienzo",
        where_closing: "Cierre",
        step_of: "paso {step} de {steps}",
        hangs_before: "Así cuelgan ahora las hebras",
        hangs_after: "Después de este paso",
        finished: "Todo está anudado. Ahora, los extremos.",
        all_steps: "Todos los pasos",
        no_script: "Los scripts están desactivados, así que los pasos no se muestran de uno en uno; abajo están \
                    todos.",
        not_kept: "Este navegador no guarda datos de esta página: al cerrarla se olvida por dónde ibas.",
        in_hand: "en la mano",
        chart: "El esquema",
        cut_off: "Marca cada hilo cortado:",
        sets_tied: "Marca cada repetición anudada:",
        set_box: "repetición {number}",
        how: "Cómo se anuda",
        strip: "La pulsera alrededor de este paso",
        lost: "Me he perdido",
        lost_how: "Pulsa los hilos tal como cuelgan ahora, de izquierda a derecha:",
        lost_remove: "Quitar el último",
        lost_fits: "Así cuelgan antes del paso {step} de: {where}.",
        lost_end: "Así cuelgan cuando todo está anudado.",
        lost_fits_none: "No cuelgan así en ningún paso.",
        lost_fits_more: "Las repeticiones que se anudan igual se ven igual: tus marcas dicen cuál es.",
        lost_near_end: "Casi así: cuando todo está anudado (intercambios de hebras vecinas: {swaps}).",
        lost_near: "Casi así: antes del paso {step} de: {where} (intercambios de hebras vecinas: {swaps}).",
        lost_untie: "Allí solo cuelgan intercambiadas {one}, en el lugar {left}, y {other}, en el lugar {right}. Se anudaron entre sí por última vez en el paso {step} de: {where}. Si el error está en ese nudo, deshaz lo anudado hasta él y vuelve a anudarlo.",
        lost_go: "Ir allí",
        awake: "Mantener la pantalla encendida",
        threads: "Los hilos",
        drawing: "Nudo {kind}: primer medio cote, segundo medio cote, apretado",
        chart_words: [
            "hacia delante: izquierda sobre derecha, cambian de lugar",
            "hacia atrás: derecha sobre izquierda, cambian de lugar",
            "delante-atrás: izquierda sobre derecha, cada una sigue en su lugar",
            "atrás-delante: derecha sobre izquierda, cada una sigue en su lugar",
            "la guía anuda sobre la hebra",
            "la hebra anuda sobre la guía",
            "se verá aquí; todavía sin nudo",
            "el hilo sigue con un trozo nuevo",
            "ancha: la hebra que anuda; fina: sobre la que se anuda",
            "fila por fila desde arriba; dentro de la fila, como quieras",
            "el número está en el lado por donde empiezas la fila",
            "los extremos no están dibujados a escala",
            "Repeticiones",
            "Las repeticiones {numbers} no se muestran aquí: sigue los pasos.",
            "La repetición {numbers} no se muestra aquí: sigue los pasos.",
        ],
    },
};

/// `y` becomes `e` before the sound of `i`, but not before a diphthong: `hilo e índigo`, `arena y hielo` (Diccionario
/// panhispánico de dudas of the Real Academia Española, "y").
fn and(next: &str) -> &'static str {
    let next = next.to_lowercase();
    let sound = next.strip_prefix('h').unwrap_or(&next);
    let is_vowel = |rest: &str| rest.starts_with(['a', 'e', 'o', 'u', 'á', 'é', 'ó', 'ú']);
    match sound.strip_prefix('i') {
        Some(rest) if !is_vowel(rest) => "e",
        None if sound.starts_with('í') => "e",
        _ => "y",
    }
}

fn hue(hue: Hue) -> &'static str {
    match hue {
        Hue::White => "blanco",
        Hue::Gray => "gris",
        Hue::Black => "negro",
        Hue::Red => "rojo",
        Hue::Orange => "naranja",
        Hue::Brown => "marrón",
        Hue::Yellow => "amarillo",
        Hue::Green => "verde",
        Hue::Turquoise => "turquesa",
        Hue::Blue => "azul",
        Hue::Purple => "morado",
        Hue::Pink => "rosa",
    }
}

/// Feminine, as everything that is counted here in words is: hebras, veces.
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

    #[test]
    fn and_depends_on_the_sound_that_follows() {
        let next = ["iris", "Índigo", "hiedra", "hilo", "yute", "arena", "1+4"];
        assert_eq!(next.map(and), ["e", "e", "y", "e", "y", "y", "y"]);
    }
}
