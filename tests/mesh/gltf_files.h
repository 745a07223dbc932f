// glTF files made by hand, byte by byte, for the tests of reading.
//
// A file is its JSON and one binary buffer; a test takes a sound one, spoils one
// thing, and reads it. Nothing here goes through the code under test.
#pragma once

#include "scene/mesh/gltf_read.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cstring>
#include <filesystem>
#include <fstream>
#include <unistd.h>

namespace lugline::files {

using nlohmann::json;
using Bytes = std::vector<unsigned char>;

template <class Figure>
Bytes bytes_of(const std::vector<Figure>& figures) {
  Bytes bytes(figures.size() * sizeof(Figure));
  std::memcpy(bytes.data(), figures.data(), bytes.size());
  return bytes;
}

inline std::string base64(const Bytes& bytes) {
  static const char* alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t left = std::min<std::size_t>(3, bytes.size() - i);
    std::uint32_t group = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      group = group << 8 | (k < left ? bytes[i + k] : 0u);
    }
    for (std::size_t k = 0; k < 4; ++k) {
      text += k <= left ? alphabet[group >> (18 - 6 * k) & 63] : '=';
    }
  }
  return text;
}

inline void put_u32(Bytes& bytes, std::size_t figure) {
  for (int i = 0; i < 4; ++i) {
    bytes.push_back(static_cast<unsigned char>(figure >> (8 * i)));
  }
}

inline Bytes glb_of(std::string text, Bytes binary) {
  text.resize((text.size() + 3) / 4 * 4, ' ');
  binary.resize((binary.size() + 3) / 4 * 4, 0);
  Bytes bytes{'g', 'l', 'T', 'F'};
  put_u32(bytes, 2);
  put_u32(bytes, 12 + 8 + text.size() + (binary.empty() ? 0 : 8 + binary.size()));
  put_u32(bytes, text.size());
  put_u32(bytes, 0x4e4f534a);
  bytes.insert(bytes.end(), text.begin(), text.end());
  if (!binary.empty()) {
    put_u32(bytes, binary.size());
    put_u32(bytes, 0x004e4942);
    bytes.insert(bytes.end(), binary.begin(), binary.end());
  }
  return bytes;
}

struct File {
  json doc = {{"asset", {{"version", "2.0"}}}};
  Bytes binary;

  /// Returns the view's number.
  int view(const Bytes& bytes, int stride = 0) {
    binary.resize((binary.size() + 3) / 4 * 4, 0);
    json view = {{"buffer", 0}, {"byteOffset", binary.size()}, {"byteLength", bytes.size()}};
    if (stride > 0) {
      view["byteStride"] = stride;
    }
    binary.insert(binary.end(), bytes.begin(), bytes.end());
    doc["bufferViews"].push_back(view);
    return static_cast<int>(doc["bufferViews"].size()) - 1;
  }

  int accessor(int view, int component, std::size_t count, const char* type) {
    json accessor = {{"componentType", component}, {"count", count}, {"type", type}};
    if (view >= 0) {
      accessor["bufferView"] = view;
    }
    doc["accessors"].push_back(accessor);
    return static_cast<int>(doc["accessors"].size()) - 1;
  }

  int floats(const std::vector<float>& figures) {
    return accessor(view(bytes_of(figures)), 5126, figures.size() / 3, "VEC3");
  }
  template <class Index>
  int indices(const std::vector<Index>& figures) {
    const int component = sizeof(Index) == 1 ? 5121 : sizeof(Index) == 2 ? 5123 : 5125;
    return accessor(view(bytes_of(figures)), component, figures.size(), "SCALAR");
  }

  /// A mesh of one primitive, and a node that shows it.
  json& mesh(int positions) {
    doc["meshes"].push_back({{"primitives", {{{"attributes", {{"POSITION", positions}}}}}}});
    doc["nodes"].push_back({{"mesh", doc["meshes"].size() - 1}});
    return doc["meshes"].back()["primitives"][0];
  }

  /// The JSON with its buffer's length set.
  [[nodiscard]] json closed() const {
    json whole = doc;
    if (!binary.empty() && !whole.contains("buffers")) {
      whole["buffers"] = json::array({json::object({{"byteLength", binary.size()}})});
    }
    return whole;
  }
  [[nodiscard]] Bytes glb() const { return glb_of(closed().dump(), binary); }
  [[nodiscard]] std::string gltf(const std::string& uri) const {
    json whole = closed();
    whole["buffers"][0]["uri"] = uri;
    return whole.dump();
  }
  [[nodiscard]] std::string gltf_with_data() const {
    return gltf("data:application/octet-stream;base64," + base64(binary));
  }
};

/// Four corners of a square in the file's x-y plane, facing the file's +z.
inline const std::vector<float> square{0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0};

/// A square of two triangles: view and accessor 0 its positions, 1 its indices.
inline File sound() {
  File file;
  const int positions = file.floats(square);
  const int corners = file.indices<std::uint16_t>({0, 1, 2, 0, 2, 3});
  file.mesh(positions)["indices"] = corners;
  return file;
}

/// A folder that goes with what is in it.
class Folder {
public:
  Folder() {
    static int number = 0;
    const auto base = std::filesystem::temp_directory_path();
    do {
      path_ = base /
              ("lugline-mesh-test-" + std::to_string(::getpid()) + "-" + std::to_string(number++));
    } while (!std::filesystem::create_directory(path_));
  }
  ~Folder() {
    std::error_code error;
    std::filesystem::remove_all(path_, error);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  std::filesystem::path write(const std::string& name, const Bytes& bytes) const {
    const std::filesystem::path file = path_ / name;
    std::filesystem::create_directories(file.parent_path());
    std::ofstream stream(file, std::ios::binary);
    stream.write(reinterpret_cast<const char*>(bytes.data()),
                 static_cast<std::streamsize>(bytes.size()));
    return file;
  }
  std::filesystem::path write(const std::string& name, const std::string& text) const {
    return write(name, Bytes(text.begin(), text.end()));
  }

private:
  std::filesystem::path path_;
};

/// Read from memory, with no folder to look into.
inline ModelReport read(const Bytes& bytes, const ModelLimits& limits = {}) {
  return read_model_bytes(bytes, "model.glb", "/nonexistent-folder", limits);
}
inline ModelReport read(const std::string& text, const ModelLimits& limits = {}) {
  return read(Bytes(text.begin(), text.end()), limits);
}
inline ModelReport read(const File& file, const ModelLimits& limits = {}) {
  return read(file.glb(), limits);
}

/// The one problem of a file that has just one.
inline std::string problem(const ModelReport& report) {
  CHECK(report.nodes.empty());
  REQUIRE_FALSE(report.problems.empty());
  std::string all;
  for (const std::string& one : report.problems) {
    all += (all.empty() ? "" : " | ") + one;
  }
  return all;
}
inline std::string problem(const File& file, const ModelLimits& limits = {}) {
  return problem(read(file, limits));
}

/// The nodes of a file that has no problems.
inline std::vector<ModelNode> nodes(const ModelReport& report) {
  for (const std::string& one : report.problems) {
    UNSCOPED_INFO(one);
  }
  REQUIRE(report.problems.empty());
  return report.nodes;
}
inline std::vector<ModelNode> nodes(const File& file) {
  return nodes(read(file));
}

} // namespace lugline::files
