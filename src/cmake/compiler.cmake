# What every target of ours is compiled with, carried by one interface target.
add_library(tickleaf_compiler INTERFACE)
target_compile_options(tickleaf_compiler INTERFACE
    -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wold-style-cast
    -Wnon-virtual-dtor -Woverloaded-virtual -Wcast-align -Wdouble-promotion -Wformat=2 -Wundef
    -ffp-contract=off)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    # GCC 12 sees overlaps in std::string operator+ that are not there (GCC bug 105651).
    target_compile_options(tickleaf_compiler INTERFACE -Wno-restrict)
endif()
if(TICKLEAF_WERROR)
    target_compile_options(tickleaf_compiler INTERFACE -Werror)
endif()
if(CMAKE_BUILD_TYPE STREQUAL "Debug")
    target_compile_definitions(tickleaf_compiler INTERFACE _GLIBCXX_ASSERTIONS)
endif()
if(TICKLEAF_SANITIZE)
    add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
    add_link_options(-fsanitize=address,undefined)
endif()
if(TICKLEAF_FUZZ)
    add_compile_options(-fsanitize=fuzzer-no-link,address,undefined)
    add_link_options(-fsanitize=address,undefined)
endif()
