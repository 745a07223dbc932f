// Writes the sample models into a folder, for judges outside the project
// (judge_glb.mjs). Not a test by itself.
#include "tests/mesh/sample_models.h"

#include <fstream>
#include <iostream>

int main(int count, char** arguments) {
  if (count != 2) {
    std::cerr << "write_samples FOLDER\n";
    return 2;
  }
  for (const lugline::samples::Sample& sample : lugline::samples::all()) {
    const std::vector<unsigned char> glb = lugline::write_glb(sample.parts);
    std::ofstream file(std::string(arguments[1]) + "/" + sample.name + ".glb", std::ios::binary);
    file.write(reinterpret_cast<const char*>(glb.data()), static_cast<std::streamsize>(glb.size()));
    if (!file) {
      return 1;
    }
  }
  return 0;
}
