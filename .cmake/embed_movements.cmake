# cmake -DOUT=FILE -DDEFINITIONS=FILE;FILE... -P: writes the definitions of movements
# as the text that compiler/movements/movements.hpp gives out.
set(text "#include \"compiler/movements/movements.hpp\"\n\nnamespace stave::movements {\n\n")
string(APPEND text "std::string_view library_text() {\n    static constexpr std::string_view text =\n")
foreach(definition IN LISTS DEFINITIONS)
  file(READ "${definition}" content)
  # Compilers need not take literals of more than 65,536 characters, so each entry is
  # one of its own.
  string(REPLACE "\nmovement " ")movements\"\n        R\"movements(\nmovement " content "${content}")
  string(APPEND text "        R\"movements(${content})movements\"\n")
endforeach()
string(APPEND text "        ;\n    return text;\n}\n\n}  // namespace stave::movements\n")
file(WRITE "${OUT}" "${text}")
