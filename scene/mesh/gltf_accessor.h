// The figures of one accessor, element by element, as the checks found them to lie.
//
// Used inside this room alone. Holds pointers into tinygltf's model, which must
// outlive it. One element is read at a time, so that a primitive that uses three
// positions of a million pays for three.
#pragma once

#include <array>
#include <cstdint>
#include <optional>

namespace tinygltf {
class Model;
}

namespace lugline::gltf {

class AccessorReader {
public:
  /// width: figures of one element. Nothing where they do not lie in their buffers:
  /// tinygltf would have to have read other figures than the checks did.
  static std::optional<AccessorReader> open(const tinygltf::Model& model, int number,
                                            std::size_t width);

  [[nodiscard]] std::size_t count() const { return count_; }
  /// Element i, below count(); normalised figures as -1…1 or 0…1. The rest are 0.
  [[nodiscard]] std::array<double, 3> at(std::size_t i) const;

private:
  struct Elements {
    const unsigned char* first = nullptr; ///< null: all zeros
    std::size_t stride = 0;
  };

  static std::optional<Elements> elements_of(const tinygltf::Model& model, int view,
                                             std::size_t offset, std::size_t count,
                                             std::size_t size, bool strided);
  [[nodiscard]] const unsigned char* place_of(std::size_t i) const;
  [[nodiscard]] std::size_t sparse_index(std::size_t k) const;

  std::size_t count_ = 0;
  std::size_t width_ = 0;
  int component_type_ = 0;
  bool normalized_ = false;
  Elements elements_;
  std::size_t sparse_count_ = 0;
  int sparse_index_type_ = 0;
  Elements sparse_indices_; ///< they rise
  Elements sparse_values_;
};

} // namespace lugline::gltf
