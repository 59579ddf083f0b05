("{" @open "}" @close)
("(" @open ")" @close)
