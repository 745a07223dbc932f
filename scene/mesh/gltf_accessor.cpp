#include "scene/mesh/gltf_accessor.h"

#include "scene/mesh/gltf_check.h"

#include <tiny_gltf.h>

#include <algorithm>
#include <cstring>

namespace lugline::gltf {

namespace {

/// One figure of that type, normalised where that is asked for.
double figure_at(const unsigned char* at, int component_type, bool normalized) {
  const auto read = [at](auto value) {
    std::memcpy(&value, at, sizeof value);
    return value;
  };
  // The least signed figure is a little below -1 and means -1.
  const auto scaled = [normalized](double value, double most) {
    return normalized ? std::max(value / most, -1.0) : value;
  };
  switch (component_type) {
  case TINYGLTF_COMPONENT_TYPE_BYTE:
    return scaled(read(std::int8_t{}), 127);
  case TINYGLTF_COMPONENT_TYPE_UNSIGNED_BYTE:
    return scaled(read(std::uint8_t{}), 255);
  case TINYGLTF_COMPONENT_TYPE_SHORT:
    return scaled(read(std::int16_t{}), 32767);
  case TINYGLTF_COMPONENT_TYPE_UNSIGNED_SHORT:
    return scaled(read(std::uint16_t{}), 65535);
  case TINYGLTF_COMPONENT_TYPE_UNSIGNED_INT:
    return read(std::uint32_t{});
  default:
    return static_cast<double>(read(float{}));
  }
}

std::size_t bytes_of(int component_type) {
  return component_bytes(static_cast<std::uint64_t>(component_type));
}

} // namespace

std::optional<AccessorReader::Elements>
AccessorReader::elements_of(const tinygltf::Model& model, int view_number, std::size_t offset,
                            std::size_t count, std::size_t size, bool strided) {
  const auto number = static_cast<std::size_t>(view_number);
  if (number >= model.bufferViews.size()) {
    return std::nullopt;
  }
  const tinygltf::BufferView& view = model.bufferViews[number];
  const auto& bytes = model.buffers[static_cast<std::size_t>(view.buffer)].data;
  const std::size_t stride = strided && view.byteStride != 0 ? view.byteStride : size;
  const std::size_t start = view.byteOffset + offset;
  if (count == 0 || start > bytes.size() || bytes.size() - start < size ||
      count - 1 > (bytes.size() - start - size) / stride) {
    return std::nullopt;
  }
  return Elements{bytes.data() + start, stride};
}

std::optional<AccessorReader> AccessorReader::open(const tinygltf::Model& model, int number,
                                                   std::size_t width) {
  const tinygltf::Accessor& accessor = model.accessors[static_cast<std::size_t>(number)];
  AccessorReader reader;
  reader.count_ = accessor.count;
  reader.width_ = width;
  reader.component_type_ = accessor.componentType;
  reader.normalized_ = accessor.normalized;
  const std::size_t size = bytes_of(accessor.componentType) * width;
  if (accessor.bufferView >= 0) {
    const auto elements =
        elements_of(model, accessor.bufferView, accessor.byteOffset, accessor.count, size, true);
    if (!elements) {
      return std::nullopt;
    }
    reader.elements_ = *elements;
  }
  if (accessor.sparse.isSparse) {
    const auto& sparse = accessor.sparse;
    reader.sparse_count_ = static_cast<std::size_t>(sparse.count);
    reader.sparse_index_type_ = sparse.indices.componentType;
    const auto indices = elements_of(
        model, sparse.indices.bufferView, static_cast<std::size_t>(sparse.indices.byteOffset),
        reader.sparse_count_, bytes_of(sparse.indices.componentType), false);
    const auto values = elements_of(model, sparse.values.bufferView,
                                    static_cast<std::size_t>(sparse.values.byteOffset),
                                    reader.sparse_count_, size, false);
    if (!indices || !values) {
      return std::nullopt;
    }
    reader.sparse_indices_ = *indices;
    reader.sparse_values_ = *values;
  }
  return reader;
}

std::size_t AccessorReader::sparse_index(std::size_t k) const {
  const unsigned char* at = sparse_indices_.first + k * sparse_indices_.stride;
  return static_cast<std::size_t>(figure_at(at, sparse_index_type_, false));
}

/// Where element i lies: among the sparse ones, else among the others; null for zeros.
const unsigned char* AccessorReader::place_of(std::size_t i) const {
  std::size_t low = 0;
  std::size_t high = sparse_count_;
  while (low < high) {
    const std::size_t middle = low + (high - low) / 2;
    if (sparse_index(middle) < i) {
      low = middle + 1;
    } else {
      high = middle;
    }
  }
  if (low < sparse_count_ && sparse_index(low) == i) {
    return sparse_values_.first + low * sparse_values_.stride;
  }
  return elements_.first == nullptr ? nullptr : elements_.first + i * elements_.stride;
}

std::array<double, 3> AccessorReader::at(std::size_t i) const {
  std::array<double, 3> figures{};
  if (const unsigned char* place = place_of(i)) {
    const std::size_t component = bytes_of(component_type_);
    for (std::size_t k = 0; k < width_; ++k) {
      figures[k] = figure_at(place + k * component, component_type_, normalized_);
    }
  }
  return figures;
}

} // namespace lugline::gltf
