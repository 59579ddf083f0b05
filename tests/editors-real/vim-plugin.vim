" vim -es -Nu NONE -i NONE -S vim-plugin.vim: our plugin; BAND is the file, EDITORS the folder of the plugins, and
" knotwright is on the path. How Vim colors is seen in tests/colors.
exe 'set runtimepath+=' .. $EDITORS .. '/vim'
filetype plugin on
exe 'edit ' .. $BAND
silent make!
let s:found = getqflist()
if &filetype ==# 'knotwright' && len(s:found) == 1 && s:found[0].lnum == 9 && s:found[0].col == 16
      \ && s:found[0].type ==? 'e' && s:found[0].text =~# 'kelp'
  qall!
endif
verbose echo 'missing: the finding in the quickfix list:' s:found
cquit!
