#include "scene/recipe/make.h"

#include "scene/mesh/gltf.h"
#include "scene/part/extras.h"

#include <fstream>
#include <iterator>
#include <system_error>

namespace lugline {

namespace {

bool stands_already(const std::filesystem::path& file, const std::vector<unsigned char>& bytes) {
  std::error_code error;
  if (std::filesystem::file_size(file, error) != bytes.size() || error) {
    return false;
  }
  std::ifstream in(file, std::ios::binary);
  const std::vector<unsigned char> there{std::istreambuf_iterator<char>(in),
                                         std::istreambuf_iterator<char>()};
  return there == bytes;
}

std::filesystem::path beside_of(std::filesystem::path file) {
  return file += ".part";
}

/// Through a file beside it, so that nobody ever reads half a model.
std::string write_file(const std::filesystem::path& file, const std::vector<unsigned char>& bytes) {
  const std::filesystem::path beside = beside_of(file);
  {
    std::ofstream out(beside, std::ios::binary | std::ios::trunc);
    out.write(reinterpret_cast<const char*>(bytes.data()),
              static_cast<std::streamsize>(bytes.size()));
    out.close();
    if (!out) {
      std::error_code ignored;
      std::filesystem::remove(beside, ignored);
      return "could not be written";
    }
  }
  std::error_code error;
  std::filesystem::rename(beside, file, error);
  return error ? "could not be written: " + error.message() : "";
}

} // namespace

std::vector<unsigned char> model_bytes(const MadePart& part) {
  return write_glb({{part.component.id, &part.mesh, extras_text_of(part.component)}});
}

MakeReport make_models(const std::filesystem::path& recipes_toml,
                       const std::filesystem::path& out_folder, const MakeProgress& progress,
                       const MeshOptions& options) {
  MakeReport report;
  RecipeBook book = make_parts(recipes_toml, options, progress);
  report.complaints = std::move(book.complaints);
  report.stopped = book.stopped;
  if (!report.complaints.empty() || report.stopped) {
    return report;
  }
  std::error_code error;
  std::filesystem::create_directories(out_folder, error);
  if (error) {
    report.problems.push_back(out_folder.string() + " could not be made: " + error.message());
    return report;
  }
  for (const MadePart& part : book.parts) {
    const Component& component = part.component;
    const std::vector<unsigned char> bytes = model_bytes(part);
    MadeModel model{component.id,
                    component.name,
                    out_folder / (component.id + ".glb"),
                    part.mesh.triangles.size(),
                    bytes.size(),
                    component.mass_kg,
                    bounds_of(part.mesh),
                    false};
    if (stands_already(model.file, bytes)) {
      std::filesystem::remove(beside_of(model.file), error); // of one that was ended while it wrote
    } else {
      const std::string problem = write_file(model.file, bytes);
      model.written = problem.empty();
      if (!problem.empty()) {
        report.problems.push_back(model.file.string() + " " + problem);
      }
    }
    report.models.push_back(std::move(model));
  }
  return report;
}

} // namespace lugline
