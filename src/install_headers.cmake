# Run while installing: puts each of `headers` (LAYER/NAME.h under `from`) into `into`, where a user includes it as <peelbook/LAYER/NAME.h>.
# Inside the tree a header is "LAYER/NAME.h", which on a stranger's path could be anybody's; so that line is written anew on the way.
# A public header that includes one which stays home is refused.
cmake_policy(VERSION 3.25)
foreach(header IN LISTS headers)
  file(READ "${from}/${header}" text)
  string(REGEX MATCHALL "#include \"[^\"]+\"" lines "${text}")
  foreach(line IN LISTS lines)
    string(REGEX REPLACE "#include \"(.+)\"" "\\1" included "${line}")
    if(NOT included IN_LIST headers)
      message(FATAL_ERROR "${header} is public and includes ${included}, which is not: src/CMakeLists.txt lists the public headers")
    endif()
  endforeach()
  string(REGEX REPLACE "#include \"([^\"]+)\"" "#include <peelbook/\\1>" text "${text}")
  file(WRITE "${into}/${header}" "${text}")
endforeach()
