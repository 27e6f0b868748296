# The libraries that the public layers are built on, for the build and for whoever links the installed library: pkg-config targets
# and the choices below do not survive an export, so the package config includes this file again.
find_package(PkgConfig REQUIRED)
find_package(Threads REQUIRED)
find_package(fmt REQUIRED)
find_package(SQLite3 REQUIRED)
find_package(SQLiteCpp REQUIRED CONFIG)
find_package(nlohmann_json REQUIRED)
pkg_check_modules(sodium REQUIRED IMPORTED_TARGET GLOBAL libsodium)

# The static archive where the system has one: each shared library costs a command about a millisecond of start-up.
function(peelbook_prefer_archive name archive shared)
  add_library(${name} INTERFACE IMPORTED GLOBAL)
  find_library(${name}_archive NAMES ${archive})
  mark_as_advanced(${name}_archive)
  if(${name}_archive)
    target_link_libraries(${name} INTERFACE ${${name}_archive} ${ARGN})
  else()
    target_link_libraries(${name} INTERFACE ${shared})
  endif()
endfunction()
peelbook_prefer_archive(peelbook_sodium libsodium.a PkgConfig::sodium Threads::Threads)
peelbook_prefer_archive(peelbook_sqlite libsqlite3.a SQLite::SQLite3 Threads::Threads ${CMAKE_DL_LIBS} m)
peelbook_prefer_archive(peelbook_sqlitecpp libSQLiteCpp.a SQLiteCpp peelbook_sqlite)
