" :make checks the file; findings stand in the quickfix list.
if exists('current_compiler')
  finish
endif
let current_compiler = 'knotwright'

CompilerSet makeprg=knotwright\ check\ --format\ short\ %:S
CompilerSet errorformat=%f:%l:%c:\ %trror[%*[^]]]:\ %m,%f:%l:%c:\ %tarning[%*[^]]]:\ %m,%-G%.%#
