// glTF and GLB, in and out, from and to strangers.
//
// glTF's own rules hold in files: metres, +Y up. In memory a mesh is metres
// with z along the axis (mesh.h): (x, y, z) here is (x, z, -y) there.
// Reading goes through tinygltf, but only after our own look at the JSON and
// the buffers (depth, sizes, ranges, URIs): tinygltf believes what it is told.
// Nothing outside `root` is opened, whatever a URI or a link says. No image is decoded.
#pragma once

#include "scene/mesh/mesh.h"

#include <filesystem>
#include <string>
#include <vector>

namespace lugline {

/// One node that has a mesh, with all transforms above it applied.
struct ModelNode {
  std::string name; ///< as written; may be empty
  /// Names from the root, "/" between; the node's index in brackets where there
  /// is no name, and after the name where a sibling has the same one.
  std::string path;
  /// Metres, z along the axis; normals made flat where the file has none. Holds the
  /// vertices that its triangles use, in the file's order, and no others.
  Mesh mesh;
  std::string extras_json; ///< the node's extras as JSON text; empty where there are none
};

struct ModelReport {
  std::vector<ModelNode> nodes; ///< in the order of the scene; empty where there are problems
  /// Each says what is wrong, where in the file, and what was expected.
  std::vector<std::string> problems;
};

/// Reads the default scene, or all root nodes where none is the default. Points,
/// lines, skins, morph targets, cameras and materials beyond their names are left
/// alone. Reads `file` only where it lies in `root`.
ModelReport read_model(const std::filesystem::path& file, const std::filesystem::path& root);

struct ModelPart {
  std::string name;
  const Mesh* mesh = nullptr;
  std::string extras_json; ///< JSON object text, or empty
};

/// A GLB with one root node for each part; KHR_mesh_quantization: positions in 16
/// bits, off by less than 0.01 mm, and undone by the node's translation and scale
/// (32-bit floats where a mesh is wider than that allows, about 655 mm), normals in
/// 8 bits, off by less than half a degree; 16-bit indices where they fit. Extras
/// stand as given, in the part's own metres. One material for each name, with a
/// plain base colour. Same parts in, same bytes out. Passes the Khronos validator
/// with no errors and no warnings.
std::vector<unsigned char> write_glb(const std::vector<ModelPart>& parts);

} // namespace lugline
