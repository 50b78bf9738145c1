autocmd BufRead,BufNewFile *.stave setfiletype stave
