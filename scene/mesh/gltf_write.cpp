#include "scene/mesh/gltf.h"

#include "scene/mesh/gltf_document.h"

#include <cassert>

namespace lugline {

std::vector<unsigned char> write_glb(const std::vector<ModelPart>& parts) {
  gltf::GlbDocument document;
  for (const ModelPart& part : parts) {
    gltf::Json node;
    node["name"] = part.name;
    if (part.mesh != nullptr && !part.mesh->triangles.empty()) {
      document.show(*part.mesh, part.name, node);
    }
    if (!part.extras_json.empty()) {
      gltf::Json extras = gltf::Json::parse(part.extras_json, nullptr, false);
      assert(extras.is_object() && "extras are JSON object text");
      if (extras.is_object()) {
        node["extras"] = std::move(extras);
      }
    }
    document.add_node(std::move(node), true);
  }
  return document.close();
}

} // namespace lugline
