" Remarks, and the indentation of a formatted session.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal comments=:#
setlocal commentstring=#\ %s
setlocal expandtab shiftwidth=2 softtabstop=2
let b:undo_ftplugin = 'setlocal comments< commentstring< expandtab< shiftwidth< softtabstop<'
