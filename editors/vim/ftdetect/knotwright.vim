autocmd BufNewFile,BufRead *.knot setfiletype knotwright
