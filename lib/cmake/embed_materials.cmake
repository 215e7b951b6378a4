# Writes a C++ source that holds the text of each file of the materials folder.
# usage: cmake -DOUTPUT=embedded.cpp -DFILES="a.toml,b.toml" -P embed_materials.cmake
string(REPLACE "," ";" FILES "${FILES}")
set(cases "")
foreach(file IN LISTS FILES)
  get_filename_component(name "${file}" NAME)
  file(READ "${file}" text)
  string(APPEND cases "  if (file == \"${name}\") return R\"heapwright(${text})heapwright\";\n")
endforeach()
file(WRITE "${OUTPUT}" "// Made from the materials folder by lib/cmake/embed_materials.cmake.
#include \"heapwright/materials/embedded.hpp\"

#include <stdexcept>
#include <string>

std::string_view heapwright::embedded_material(std::string_view file) {
${cases}  throw std::out_of_range(\"no material \" + std::string(file));
}
")
