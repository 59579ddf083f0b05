(pattern "pattern" @context title: (string) @name) @item
(colorway "colorway" @context name: (string) @name) @item
(motif "motif" @context name: (name) @name) @item
(section "section" @context title: (string) @name) @item
(opening "opening" @name) @item
(set "set" @name) @item
(closing "closing" @name) @item
