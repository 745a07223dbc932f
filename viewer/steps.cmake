# Lists the ids of the steps in what `lugline check --json` printed, one a line.
#   cmake -D CHECK=<json file> -D STEPS=<file to write> -P viewer/steps.cmake
# In CMake's own language because CMake is there anyway and reads JSON.
file(READ "${CHECK}" text)
string(JSON count LENGTH "${text}" steps)
set(ids "")
if(count GREATER 0)
  math(EXPR last "${count} - 1")
  foreach(i RANGE ${last})
    string(JSON id GET "${text}" steps ${i} id)
    string(APPEND ids "${id}\n")
  endforeach()
endif()
file(WRITE "${STEPS}" "${ids}")
