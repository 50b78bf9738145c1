// The font files as read-only data: for each face its bytes, aligned for the
// table readers, and their count. fonts.cpp declares the symbols. The folders of
// the files are on the include path.

.macro face symbol, path
    .globl \symbol
    .hidden \symbol
    .type \symbol, @object
    .balign 16
\symbol:
    .incbin "\path"
    .size \symbol, . - \symbol

    .globl \symbol\()_size
    .hidden \symbol\()_size
    .type \symbol\()_size, @object
    .balign 8
\symbol\()_size:
    .quad \symbol\()_size - \symbol
    .size \symbol\()_size, 8
.endm

    .section .rodata
    face stave_face_condensed_bold, RobotoCondensed-Bold.ttf
    face stave_face_condensed_regular, RobotoCondensed-Regular.ttf
    face stave_face_regular, Roboto-Regular.ttf
    face stave_face_medium, Roboto-Medium.ttf

    .section .note.GNU-stack, "", @progbits
