if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal comments=:-- commentstring=--\ %s iskeyword+=- suffixesadd=.knot
setlocal expandtab shiftwidth=2 softtabstop=2 smartindent
compiler knotwright
let b:undo_ftplugin = 'setlocal comments< commentstring< iskeyword< suffixesadd< expandtab< shiftwidth< softtabstop<'
      \ . ' smartindent< makeprg< errorformat<'
