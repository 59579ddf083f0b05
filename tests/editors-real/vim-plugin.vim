" vim -es -i NONE -Nu VIMRC -S vim-plugin.vim: with a vimrc as the page on Vim says; BAND is the file, and knotwright is on
" the path. How Vim colors is seen in tests/colors.
func s:Missing(what, found)
  verbose echo 'missing:' a:what a:found
  cquit!
endfunc

func s:IsPromise(one)
  return a:one.lnum == 9 && a:one.col == 16 && a:one.type ==? 'e' && a:one.text =~# 'kelp'
endfunc

exe 'edit ' .. $BAND
if &filetype !=# 'knotwright' || synIDattr(synID(1, 1, 1), 'name') !=# 'knotStatement'
  call s:Missing('the type of the file and its colors:', &filetype)
endif
silent make!
if len(getqflist()) != 1 || !s:IsPromise(getqflist()[0])
  call s:Missing('the finding in the quickfix list:', getqflist())
endif

" ALE asks the server; its answer may take as long as the machine is busy.
let s:begun = reltime()
while empty(getloclist(0)) && reltimefloat(reltime(s:begun)) < 120
  sleep 50m
endwhile
if len(getloclist(0)) != 1 || !s:IsPromise(getloclist(0)[0])
  call s:Missing('what ALE says:', getloclist(0))
endif
call setline(9, '  take left 1: forward 3')
doautocmd TextChanged
let s:begun = reltime()
while !empty(getloclist(0)) && reltimefloat(reltime(s:begun)) < 120
  sleep 50m
endwhile
if !empty(getloclist(0))
  call s:Missing('no more errors:', getloclist(0))
endif
qall!
