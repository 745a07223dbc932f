#include "scene/mesh/gltf_handover.h"

#include <tiny_gltf.h>

#include <charconv>
#include <initializer_list>

namespace lugline::gltf {

namespace {

using nlohmann::json;

constexpr std::string_view buffer_prefix = "buffer-";

/// The named members of an object, where it has them.
json only(const json& object, std::initializer_list<const char*> names) {
  json kept = json::object();
  for (const char* name : names) {
    const auto found = object.find(name);
    if (found != object.end()) {
      kept[name] = *found;
    }
  }
  return kept;
}

/// An array of the document with each entry passed through `kept_of`.
template <class Kept>
void keep(json& to, const json& from, const char* name, Kept kept_of) {
  const auto list = from.find(name);
  if (list == from.end() || list->empty()) {
    return;
  }
  json& kept = to[name] = json::array();
  for (const json& value : *list) {
    kept.push_back(kept_of(value, kept.size()));
  }
}

json kept_mesh(const json& mesh, std::size_t) {
  json primitives = json::array();
  for (const json& primitive : mesh["primitives"]) {
    json kept = only(primitive, {"indices", "material", "mode"});
    kept["attributes"] = only(primitive["attributes"], {"POSITION", "NORMAL"});
    primitives.push_back(std::move(kept));
  }
  return {{"primitives", std::move(primitives)}};
}

json kept_document(const json& document) {
  json kept = {{"asset", {{"version", "2.0"}}}};
  keep(kept, document, "buffers", [](const json& buffer, std::size_t i) {
    json one = only(buffer, {"byteLength"});
    one["uri"] = std::string(buffer_prefix) + std::to_string(i);
    return one;
  });
  keep(kept, document, "bufferViews", [](const json& view, std::size_t) {
    return only(view, {"buffer", "byteOffset", "byteLength", "byteStride"});
  });
  keep(kept, document, "accessors", [](const json& accessor, std::size_t) {
    return only(accessor, {"bufferView", "byteOffset", "componentType", "count", "type",
                           "normalized", "sparse"});
  });
  keep(kept, document, "materials",
       [](const json& material, std::size_t) { return only(material, {"name"}); });
  keep(kept, document, "meshes", kept_mesh);
  keep(kept, document, "nodes", [](const json& node, std::size_t) {
    return only(node, {"name", "mesh", "matrix", "translation", "rotation", "scale"});
  });
  return kept;
}

const BufferFigures* buffer_named(const std::string& path, void* user) {
  const auto& buffers = *static_cast<const std::vector<BufferFigures>*>(user);
  const std::size_t at = path.rfind(buffer_prefix);
  if (at == std::string::npos) {
    return nullptr;
  }
  const char* first = path.data() + at + buffer_prefix.size();
  const char* last = path.data() + path.size();
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(first, last, number);
  return error == std::errc() && end == last && number < buffers.size() ? &buffers[number]
                                                                        : nullptr;
}

bool file_exists(const std::string& path, void* user) {
  return buffer_named(path, user) != nullptr;
}
std::string expand_path(const std::string& path, void*) {
  return path;
}

bool read_file(std::vector<unsigned char>* out, std::string*, const std::string& path, void* user) {
  const BufferFigures* buffer = buffer_named(path, user);
  if (buffer == nullptr) {
    return false;
  }
  *out = buffer->bytes;
  return true;
}

bool write_no_file(std::string*, const std::string&, const std::vector<unsigned char>&, void*) {
  return false;
}

bool load_no_image(tinygltf::Image*, int, std::string*, std::string*, int, int,
                   const unsigned char*, int, void*) {
  return true;
}

bool same_counts(const json& document, const tinygltf::Model& model) {
  const auto count = [&](const char* name) {
    const auto list = document.find(name);
    return list == document.end() ? 0 : list->size();
  };
  return count("buffers") == model.buffers.size() &&
         count("bufferViews") == model.bufferViews.size() &&
         count("accessors") == model.accessors.size() &&
         count("materials") == model.materials.size() && count("meshes") == model.meshes.size() &&
         count("nodes") == model.nodes.size();
}

} // namespace

bool hand_over(const json& document, const std::vector<BufferFigures>& buffers,
               tinygltf::Model& model, Problems& problems) {
  tinygltf::TinyGLTF loader;
  // The callbacks only read; the cast is for an interface that knows no const.
  loader.SetFsCallbacks({file_exists, expand_path, read_file, write_no_file,
                         const_cast<std::vector<BufferFigures>*>(&buffers)});
  loader.SetImageLoader(load_no_image, nullptr);
  std::string error;
  std::string warning;
  bool loaded = false;
  try {
    const std::string text = kept_document(document).dump();
    loaded = loader.LoadASCIIFromString(&model, &error, &warning, text.data(),
                                        static_cast<unsigned>(text.size()), "");
  } catch (const std::exception& thrown) {
    error = thrown.what();
  }
  if (!loaded || !same_counts(document, model)) {
    problems.add("the glTF loader does not accept the file: " + in_quotes(error));
    return false;
  }
  return true;
}

} // namespace lugline::gltf
