// Buffers, buffer views, accessors and images: what lies where, and whether it is there at all.
#include "scene/mesh/gltf_check.h"
#include "scene/mesh/gltf_uri.h"

#include <cstring>

namespace lugline::gltf {

namespace {

using nlohmann::json;

std::string count(std::uint64_t n) {
  return std::to_string(n);
}
std::string entry(const char* what, std::size_t i) {
  return std::string(what) + " " + count(i);
}

using Bytes = std::vector<unsigned char>;

/// The bytes behind one buffer, or the words why there are none.
Outcome<Bytes> bytes_of_buffer(const Members& buffer, std::size_t number,
                               const BufferSources& sources, std::uint64_t length) {
  if (!buffer.has("uri")) {
    if (number > 0) {
      return Problem{"has no uri; only the first buffer may be the GLB's own"};
    }
    if (!sources.container.has_binary) {
      return Problem{"has no uri, and the file has no binary chunk"};
    }
    const auto& binary = sources.container.binary;
    return Bytes(binary.begin(), binary.end());
  }
  const json& uri = buffer.value()["uri"];
  if (!uri.is_string()) {
    return Problem{"has uri " + shown_in_model(uri) + "; text was expected"};
  }
  const auto& text = uri.get_ref<const std::string&>();
  if (is_data_uri(text)) {
    auto bytes = bytes_of_data_uri(text);
    return bytes ? std::move(bytes) : Problem{"has " + bytes.problem()};
  }
  const Outcome<std::string> path = relative_path_of(text);
  if (!path) {
    return Problem{"cannot be read: " + path.problem()};
  }
  auto bytes = read_inside(sources.folder / path.value(), sources.root, path.value(), length);
  return bytes ? std::move(bytes) : Problem{"cannot be read: " + bytes.problem()};
}

/// Whether `count` elements of `size` bytes, `stride` apart, fit in behind `offset`.
/// Nothing here can overflow: offset and size are first held against the length.
bool fits(std::uint64_t offset, std::uint64_t elements, std::uint64_t size, std::uint64_t stride,
          std::uint64_t length) {
  if (offset > length || length - offset < size) {
    return false;
  }
  return elements - 1 <= (length - offset - size) / stride;
}

std::uint64_t room(std::uint64_t offset, std::uint64_t size, std::uint64_t stride,
                   std::uint64_t length) {
  return offset > length || length - offset < size ? 0 : (length - offset - size) / stride + 1;
}

struct TypeFigures {
  const char* name;
  std::uint64_t rows;
  std::uint64_t columns;
};
constexpr TypeFigures types[] = {{"SCALAR", 1, 1}, {"VEC2", 2, 1}, {"VEC3", 3, 1}, {"VEC4", 4, 1},
                                 {"MAT2", 2, 2},   {"MAT3", 3, 3}, {"MAT4", 4, 4}};

/// Bytes of one element; a matrix's columns begin at whole fours. 0 for an unknown type.
std::uint64_t element_bytes(const std::string& type, std::uint64_t component) {
  for (const TypeFigures& known : types) {
    if (type == known.name) {
      const std::uint64_t column = known.rows * component;
      return known.columns == 1 ? column : (column + 3) / 4 * 4 * known.columns;
    }
  }
  return 0;
}

/// A stretch of elements in a view: an accessor's own, or its sparse indices or values.
struct Stretch {
  const Members& members;
  std::uint64_t elements;
  std::uint64_t size;
  std::uint64_t alignment;
};

/// The place of the stretch's first byte in its buffer, or nothing.
std::optional<std::uint64_t> start_of(const Stretch& stretch, std::uint64_t view_number,
                                      const std::vector<ViewFigures>& views, bool may_be_strided) {
  const auto offset = stretch.members.whole_or("byteOffset", 0);
  const ViewFigures& view = views[view_number];
  if (!offset || !view.sound) {
    return std::nullopt;
  }
  const std::string view_name = entry("buffer view", view_number);
  if (view.stride != 0 && !may_be_strided) {
    stretch.members.complain("uses " + view_name + ", which has a byteStride; only vertices may");
    return std::nullopt;
  }
  const std::uint64_t stride = view.stride != 0 ? view.stride : stretch.size;
  if (stretch.size > stride) {
    stretch.members.complain("has elements of " + count(stretch.size) +
                             " bytes, more than the stride of " + count(stride) + " of " +
                             view_name);
    return std::nullopt;
  }
  if (!fits(*offset, stretch.elements, stretch.size, stride, view.length)) {
    stretch.members.complain("asks for " + count(stretch.elements) + " elements of " +
                             count(stretch.size) + " bytes from byte " + count(*offset) + "; " +
                             view_name + " has room for " +
                             count(room(*offset, stretch.size, stride, view.length)));
    return std::nullopt;
  }
  const std::uint64_t start = view.offset + *offset;
  if (start % stretch.alignment != 0 || stride % stretch.alignment != 0) {
    stretch.members.complain("begins at byte " + count(start) + " with a stride of " +
                             count(stride) + "; both must be multiples of " +
                             count(stretch.alignment));
    return std::nullopt;
  }
  return start;
}

std::uint64_t index_at(const Bytes& bytes, std::uint64_t start, std::uint64_t size) {
  std::uint64_t value = 0;
  for (std::uint64_t i = 0; i < size; ++i) {
    value |= static_cast<std::uint64_t>(bytes[start + i]) << (8 * i);
  }
  return value;
}

class SparseCheck {
public:
  /// most: sparse elements of all accessors together, since many may share one list.
  SparseCheck(const std::vector<BufferFigures>& buffers, const std::vector<ViewFigures>& views,
              std::uint64_t most, Problems& problems)
      : buffers_(buffers), views_(views), left_(most), problems_(problems) {}

  /// Whether the sparse part of an accessor of that count and element size is sound.
  bool check(const json& value, const std::string& accessor, const AccessorFigures& figures,
             std::uint64_t size) {
    const Members sparse(value, "the sparse part of " + accessor, problems_);
    const auto elements = sparse.whole("count");
    if (!elements) {
      return false;
    }
    if (*elements == 0 || *elements > figures.count) {
      sparse.complain("has " + count(*elements) + " of " + count(figures.count) +
                      " elements; 1 to all of them were expected");
      return false;
    }
    if (*elements > left_) {
      sparse.complain("is one too many: all together hold more than is read");
      return false;
    }
    left_ -= *elements;
    if (!sparse.has("indices") || !sparse.has("values")) {
      sparse.complain("lacks its indices or its values");
      return false;
    }
    const Members values(value["values"], "the list of sparse values of " + accessor, problems_);
    const auto values_view = values.index("bufferView", views_.size(), "buffer view");
    const std::uint64_t alignment =
        component_bytes(static_cast<std::uint64_t>(figures.component_type));
    const bool values_sound =
        values_view && start_of({values, *elements, size, alignment}, *values_view, views_, false);
    return check_indices(value["indices"], accessor, *elements, figures.count) && values_sound;
  }

private:
  bool check_indices(const json& value, const std::string& accessor, std::uint64_t elements,
                     std::uint64_t limit) {
    const Members indices(value, "the list of sparse indices of " + accessor, problems_);
    const auto view = indices.index("bufferView", views_.size(), "buffer view");
    const auto type = indices.whole("componentType");
    if (!view || !type) {
      return false;
    }
    if (*type != 5121 && *type != 5123 && *type != 5125) {
      indices.complain("has component type " + count(*type) + "; 5121, 5123 or 5125 was expected");
      return false;
    }
    const std::uint64_t size = component_bytes(*type);
    const auto start = start_of({indices, elements, size, size}, *view, views_, false);
    return start &&
           rise(indices, buffers_[views_[*view].buffer].bytes, *start, size, elements, limit);
  }

  static bool rise(const Members& indices, const Bytes& bytes, std::uint64_t start,
                   std::uint64_t size, std::uint64_t elements, std::uint64_t limit) {
    std::uint64_t before = 0;
    for (std::uint64_t i = 0; i < elements; ++i) {
      const std::uint64_t index = index_at(bytes, start + i * size, size);
      if (index >= limit) {
        indices.complain("names element " + count(index) + " of " + count(limit));
        return false;
      }
      if (i > 0 && index <= before) {
        indices.complain("must rise; " + count(index) + " comes after " + count(before));
        return false;
      }
      before = index;
    }
    return true;
  }

  const std::vector<BufferFigures>& buffers_;
  const std::vector<ViewFigures>& views_;
  std::uint64_t left_;
  Problems& problems_;
};

/// Type, count and the like, apart from where the elements lie.
std::optional<AccessorFigures> accessor_figures(const Members& accessor) {
  const auto component = accessor.whole("componentType");
  const auto elements = accessor.whole("count");
  const auto type = accessor.text("type");
  const auto normalized = accessor.truth_or_no("normalized");
  if (!component || !elements || !type || !normalized) {
    return std::nullopt;
  }
  if (component_bytes(*component) == 0) {
    accessor.complain("has component type " + count(*component) +
                      "; 5120 to 5123, 5125 and 5126 are known");
    return std::nullopt;
  }
  if (element_bytes(*type, 1) == 0) {
    accessor.complain("is of type " + in_quotes(*type) +
                      "; SCALAR, VEC2 to VEC4 and MAT2 to MAT4 are known");
    return std::nullopt;
  }
  if (*elements == 0) {
    accessor.complain("has no elements: its count is 0");
    return std::nullopt;
  }
  if (*normalized && *component >= 5125) {
    accessor.complain("is normalised, which only 8-bit and 16-bit figures can be");
    return std::nullopt;
  }
  AccessorFigures figures;
  figures.component_type = static_cast<int>(*component);
  figures.type = *type;
  figures.count = *elements;
  figures.normalized = *normalized;
  return figures;
}

} // namespace

std::uint64_t component_bytes(std::uint64_t component_type) {
  switch (component_type) {
  case 5120:
  case 5121:
    return 1;
  case 5122:
  case 5123:
    return 2;
  case 5125:
  case 5126:
    return 4;
  default:
    return 0;
  }
}

std::vector<BufferFigures> check_buffers(const json& document, const BufferSources& sources,
                                         const ModelLimits& limits, Problems& problems) {
  const Members top(document, "the file", problems);
  const json& list = top.array("buffers");
  std::vector<BufferFigures> buffers;
  std::uint64_t left = limits.file_bytes;
  if (list.size() > limits.buffers) {
    problems.add("the file has " + count(list.size()) + " buffers, at most " +
                 count(limits.buffers) + " are read");
    return std::vector<BufferFigures>(list.size());
  }
  for (std::size_t i = 0; i < list.size() && !problems.full(); ++i) {
    const Members buffer(list[i], entry("buffer", i), problems);
    BufferFigures figures;
    const auto length = buffer.is_object() ? buffer.whole("byteLength") : std::nullopt;
    if (length && (*length == 0 || *length > left)) {
      buffer.complain("says " + count(*length) + " bytes; 1 to " + count(left) + " were expected");
    } else if (length) {
      auto bytes = bytes_of_buffer(buffer, i, sources, *length);
      if (!bytes) {
        buffer.complain(bytes.problem());
      } else if (bytes.value().size() < *length) {
        buffer.complain("says " + count(*length) + " bytes, " + count(bytes.value().size()) +
                        " are there");
      } else {
        figures.bytes = std::move(bytes).value();
        figures.bytes.resize(*length);
        figures.bytes.shrink_to_fit();
        figures.sound = true;
        left -= *length;
      }
    }
    buffers.push_back(std::move(figures));
  }
  return buffers;
}

std::vector<ViewFigures>
check_views(const json& document, const std::vector<BufferFigures>& buffers, Problems& problems) {
  const Members top(document, "the file", problems);
  std::vector<ViewFigures> views;
  for (const json& value : top.array("bufferViews")) {
    const Members view(value, entry("buffer view", views.size()), problems);
    ViewFigures figures;
    const auto buffer = view.index("buffer", buffers.size(), "buffer");
    const auto offset = view.whole_or("byteOffset", 0);
    const auto length = view.whole("byteLength");
    const auto stride = view.whole_or("byteStride", 0);
    if (buffer && offset && length && stride && buffers[*buffer].sound) {
      const std::uint64_t most = buffers[*buffer].bytes.size();
      if (*length == 0) {
        view.complain("is 0 bytes long");
      } else if (*offset > most) {
        view.complain("begins at byte " + count(*offset) + " of a buffer of " + count(most));
      } else if (*length > most - *offset) {
        // Both fit a buffer's bounds by the branch above, or the sum is only shown where it is
        // safe.
        const bool showable = *length <= UINT64_MAX - *offset;
        view.complain((showable ? "ends at byte " + count(*offset + *length)
                                : "is " + count(*length) + " bytes long") +
                      " of a buffer of " + count(most));
      } else if (view.has("byteStride") && (*stride < 4 || *stride > 252 || *stride % 4 != 0)) {
        view.complain("has a byteStride of " + count(*stride) +
                      "; 4 to 252 in whole fours was expected");
      } else {
        figures = {*buffer, *offset, *length, *stride, true};
      }
    }
    views.push_back(figures);
  }
  return views;
}

std::vector<AccessorFigures> check_accessors(const json& document,
                                             const std::vector<BufferFigures>& buffers,
                                             const std::vector<ViewFigures>& views,
                                             const ModelLimits& limits, Problems& problems) {
  const Members top(document, "the file", problems);
  SparseCheck sparse(buffers, views, limits.vertices, problems);
  std::vector<AccessorFigures> accessors;
  for (const json& value : top.array("accessors")) {
    const std::string place = entry("accessor", accessors.size());
    const Members accessor(value, place, problems);
    const auto figures = accessor.is_object() ? accessor_figures(accessor) : std::nullopt;
    accessors.push_back(figures.value_or(AccessorFigures{}));
    if (!figures) {
      continue;
    }
    const std::uint64_t component =
        component_bytes(static_cast<std::uint64_t>(figures->component_type));
    const std::uint64_t size = element_bytes(figures->type, component);
    bool sound = true;
    if (accessor.has("bufferView")) {
      const auto view = accessor.index("bufferView", views.size(), "buffer view");
      sound = view && start_of({accessor, figures->count, size, component}, *view, views, true);
    } else if (figures->count > limits.zero_elements) {
      accessor.complain("asks for " + count(figures->count) + " elements out of nothing, at most " +
                        count(limits.zero_elements) + " zeros are read");
      sound = false;
    }
    if (sound && accessor.has("sparse")) {
      sound = sparse.check(value["sparse"], place, *figures, size);
    }
    AccessorFigures& found = accessors.back();
    found.has_view = accessor.has("bufferView");
    if (sound && found.has_view) {
      found.offset = accessor.whole_or("byteOffset", 0).value_or(0);
      const std::uint64_t stride = views[value["bufferView"].get<std::uint64_t>()].stride;
      found.stride = stride != 0 ? stride : size;
    }
    found.sound = sound;
  }
  return accessors;
}

void check_images(const json& document, const std::vector<ViewFigures>& views, Problems& problems) {
  const Members top(document, "the file", problems);
  std::size_t number = 0;
  for (const json& value : top.array("images")) {
    const Members image(value, entry("image", number++), problems);
    if (image.has("bufferView")) {
      (void)image.index("bufferView", views.size(), "buffer view"); // the complaint is the point
    }
  }
}

} // namespace lugline::gltf
