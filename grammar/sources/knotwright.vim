" Made from grammar/sources/knotwright.vim by `cargo xtask bless`.
" Where two items begin at the same place, the later one here wins.
if exists('b:current_syntax')
  finish
endif

syntax iskeyword @,48-57,_,-,128-255

syntax match knotName /\k\+/
syntax match knotNumber /\<\d\+\%(\.\d\+\)\=/
syntax match knotOperator /[|+*]\|\s\@1<=-\ze\s/
syntax match knotThen /\%(\<take\s.*\|^\s*then\s.*\)\@<=\<then\ze\s/
syntax match knotName /\%(\<\%(take\|over\|until\|join\)\s\+\)\@<=\d\@!\k\+/
syntax match knotDetail /\<\%(down\|up\)\ze\s\+to\>\|\<of\ze\s\+center\>\|\<as\ze\s\+\k\+\s*:/
syntax match knotDetail /\%()\s\+\)\@<=on\ze\s\+\d\|\%()\s\+\|\<expect\s\+start\s\+\)\@<=mirrored\>/
syntax match knotDetail /\%(^\s*pattern\s.*\)\@<=\<edition\ze\s\+\d/
syntax match knotDetail /\%(\<expect\s\+face\s\+\)\@<=\%(turn\|flip\)\>/
syntax match knotStatement /\%(\<expect\s\+\)\@<=face\ze\s\+\%(mirror\|turn\|flip\)\>/
syntax match knotDetail /\%(^\s*start\s.*\)\@<=\<\%(loose\|folded\|loop\|pairs\|side-by-side\|mirrored\)\>/
syntax match knotStatement /\%(\%(^\|{\)\s*\%(plait\|twist\)\s[^{}]*\)\@<=\<for\ze\s\+\d\|\%(\%(^\|{\)\s*closing\s\+\)\@<=knot\>/
syntax match knotDetail /\%(\%(^\|{\)\s*\%(wrap\|slide\)\s[^{}]*\d\s\+\)\@<=turns\>/
syntax match knotDetail /\%(\%(^\|{\)\s*join\s[^{}]*\)\@<=\<\%(with\ze\s\+\k\|in\ze\s\+set\s\)/
syntax match knotStatement /\%(\%(^\|{\)\s*join\s[^{}]*\<in\s\+\)\@<=set\ze\s/
syntax match knotDetail /\%(\%(^\|{\)\s*bead\s\+\k\+\s\+\)\@<=on\ze\s\|\%(\%(^\|{\)\s*bead\s[^{}]*\d\s\+\%({{unit}}\)\s\+\)\@<=hole\ze\s\+\d/
syntax match knotMotif /\%(^\s*use\s.*\|\<\%(motif\|work\)\s\+\)\@<=\k\+/
syntax match knotPlace /\<\%({{place}}\)\>/
syntax match knotKind /\<\%({{kind}}\)\>/
syntax match knotName /\%(\<\%(motif\|work\|take\)\s\+\)\@<=\k\+\ze(\|\%(\<for\s\+\)\@<=\d\@!\k\+/ contains=knotMotif
syntax match knotUnit /\%(\<\%(length\|ends\|thickness\|use\|measure\|loop\|tassel\|for\)\s\+[0-9.]\+\s\+\)\@<=\%({{unit}}\)\>/
syntax match knotUnit /\%(\%(^\|{\)\s*bead\s[^{}]*[0-9.]\+\s\+\)\@<=\%({{unit}}\)\>/
syntax match knotColor /\%(\%(^\|{\)\s*bead\s\+\k\+\s\+\)\@<=\k\+\ze\s\+\d/
syntax match knotUnit /\%(\%(^\|{\)\s*thread\s\+\k\+\s\+[^"]*\%(,\s*\n[^"]*\)\?\<[0-9.]\+\s\+\)\@<=\%({{unit}}\)\>/
syntax match knotColor /#\x\+\|\%(\%(^\|{\)\s*thread\s\+\k\+\s\+\)\@<=\k\+\|\%(\%(^\|{\)\s*thread\s[^"]*,\s*\%(\n\s*\)\?\)\@<=\k\+\ze\s\+\d/

" A statement begins its line, or stands behind the brace of a block.
syntax cluster knotFirst contains=knotStatement,knotSwatch,knotRows,knotChart,knotFace
syntax match knotStatement /\<\%(\%(loop\|tassel\|plait\|split\)\s\+\a\)\@!\%({{statement}}\|thickness\|then\)\>/ contained
syntax match knotSwatch /\d\+\s\+\%(\%(knots\|rows\)\s\+\%(use\|measure\)\|tex\)\>/ contained contains=knotNumber,knotMeasured
syntax match knotMeasured /\<\%(knots\|rows\|use\|measure\|tex\)\>/ contained
syntax match knotFirst /^\s*/ nextgroup=@knotFirst
syntax match knotFirst /{\s*/ nextgroup=@knotFirst

syntax match knotMark /[\\\/<>.x#]/ contained
syntax region knotRows matchgroup=knotStatement start=/\<rows\%(\s\+offset\)\=\s*{/ end=/}/ contained contains=knotMark,knotComment
syntax match knotSeen /[.?]\|\k/ contained
syntax match knotSeenKey /\%(\<face\s\+\|\<offset\s\+\|,\s*\)\@<=\k\ze\s\+\k/ contained
syntax region knotFace matchgroup=knotStatement start=/\<face\%(\s\+offset\)\=\ze\%(\s*{\|\s\+\k\+\s\+\k\)/ end=/\ze{/ end=/$/ contained contains=knotSeenKey,knotName,knotComment nextgroup=knotFaceRows
syntax region knotFaceRows start=/{/ end=/}/ contained contains=knotSeen,knotComment
syntax region knotChart matchgroup=knotStatement start=/\<leader\>/ end=/\ze{/ end=/$/ contained contains=TOP,knotFirst nextgroup=knotLeader
syntax region knotLeader start=/{/ end=/}/ contained contains=knotMark,knotLetters,knotComment
syntax region knotLetters matchgroup=knotStatement start=/\<letters\>/ end=/\ze}/ end=/$/ contained contains=knotString,knotLettered,knotNumber,knotComment
syntax match knotLettered /\<\%(across\|height\)\>/ contained

syntax match knotEscape /\\["\\]/ contained
syntax region knotString start=/"/ skip=/\\["\\]/ end=/"/ end=/$/ oneline contains=knotEscape,@Spell
syntax match knotComment /\%(^\|\s\)\@1<=--.*$/ contains=@Spell

syntax sync fromstart

highlight default link knotStatement Statement
highlight default link knotMeasured Statement
highlight default link knotLettered Statement
highlight default link knotThen Statement
highlight default link knotDetail Statement
highlight default link knotPlace Operator
highlight default link knotOperator Operator
highlight default link knotKind Function
highlight default link knotMark Special
highlight default link knotSeen Special
highlight default link knotSeenKey Special
highlight default link knotMotif Function
highlight default link knotName Identifier
highlight default link knotNumber Number
highlight default link knotUnit Type
highlight default link knotColor Constant
highlight default link knotString String
highlight default link knotEscape SpecialChar
highlight default link knotComment Comment

let b:current_syntax = 'knotwright'
