#include "scene/load/memory_source.h"

#include "scene/mesh/gltf_read.h"

namespace lugline {

namespace {
/// A folder in which no file can be.
constexpr const char* nowhere = "/dev/null/nowhere";
} // namespace

Outcome<std::uintmax_t> MemorySource::size_of(const std::string& name) const {
  const Outcome<std::string> inside = inside_name(name);
  if (!inside) {
    return Problem{inside.problem()};
  }
  const auto found = files_.find(name);
  if (found == files_.end()) {
    return Problem{"there is no such file in the unit's folder"};
  }
  return std::uintmax_t{found->second.size()};
}

Outcome<std::string> MemorySource::bytes(const std::string& name, std::uintmax_t most_bytes) const {
  const Outcome<std::uintmax_t> size = size_of(name);
  if (!size) {
    return Problem{size.problem()};
  }
  if (size.value() > most_bytes) {
    return too_large(size.value(), most_bytes);
  }
  return files_.at(name);
}

ModelReport MemorySource::model(const std::string& name) const {
  const auto found = files_.find(name);
  if (found == files_.end()) {
    return {{}, {"there is no such file in the unit's folder"}};
  }
  const auto* first = reinterpret_cast<const unsigned char*>(found->second.data());
  return read_model_bytes({first, found->second.size()}, name, nowhere);
}

std::vector<std::string> MemorySource::names() const {
  std::vector<std::string> all;
  for (const auto& [name, bytes] : files_) {
    all.push_back(name);
  }
  return all;
}

} // namespace lugline
