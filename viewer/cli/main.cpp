#include "viewer/cli/commands.h"

#include <iostream>

int main(int argc, char** argv) {
  try {
    return lugline::cli::run(argc, argv, {std::cout, std::cerr});
  } catch (const std::exception& error) {
    // Our own slip or no memory: said plainly, never a bare abort.
    std::cerr << "lugline: something went wrong inside: " << error.what() << "\n";
    return lugline::cli::not_sound;
  }
}
