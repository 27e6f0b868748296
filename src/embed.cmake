# embed_files(TARGET NAME FOLDER PATTERNS): compiles the files below FOLDER that match into TARGET, as
#   const std::vector<peelbook::EmbeddedFile>& peelbook::NAME();
# sorted by path (relative to FOLDER). A changed or new file rebuilds the target.
function(embed_files target name folder patterns)
  if(NOT TARGET ${target})
    return()
  endif()
  set(globs)
  foreach(pattern ${patterns})
    list(APPEND globs ${folder}/${pattern})
  endforeach()
  file(GLOB_RECURSE files CONFIGURE_DEPENDS ${globs})
  list(SORT files)
  set(out ${CMAKE_CURRENT_BINARY_DIR}/embedded/${name}.cpp)
  add_custom_command(
    OUTPUT ${out}
    COMMAND ${CMAKE_COMMAND} -DOUT=${out} -DNAME=${name} -DFOLDER=${folder} "-DFILES=${files}"
            -P ${CMAKE_CURRENT_SOURCE_DIR}/embed_write.cmake
    DEPENDS ${files} ${CMAKE_CURRENT_SOURCE_DIR}/embed_write.cmake
    VERBATIM)
  target_sources(${target} PRIVATE ${out})
endfunction()
