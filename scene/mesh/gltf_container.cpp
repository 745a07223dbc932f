#include "scene/mesh/gltf_container.h"

namespace lugline::gltf {

namespace {

using nlohmann::json;
using Bytes = std::span<const unsigned char>;

constexpr std::uint32_t magic_glb = 0x46546c67;
constexpr std::uint32_t chunk_json = 0x4e4f534a;
constexpr std::uint32_t chunk_binary = 0x004e4942;
constexpr std::size_t header_bytes = 12;
constexpr std::size_t chunk_header_bytes = 8;

std::uint32_t u32_at(Bytes bytes, std::size_t at) {
  return static_cast<std::uint32_t>(bytes[at]) | static_cast<std::uint32_t>(bytes[at + 1]) << 8 |
         static_cast<std::uint32_t>(bytes[at + 2]) << 16 |
         static_cast<std::uint32_t>(bytes[at + 3]) << 24;
}

std::string_view as_text(Bytes bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

std::string count(std::uint64_t n) {
  return std::to_string(n);
}

bool header_is_sound(Bytes bytes, Problems& problems) {
  if (bytes.size() < header_bytes) {
    problems.add("GLB cut short: " + count(bytes.size()) + " bytes, its header alone is 12");
    return false;
  }
  const std::uint32_t version = u32_at(bytes, 4);
  if (version != 2) {
    problems.add("GLB version " + count(version) + "; version 2 is understood");
    return false;
  }
  const std::uint32_t length = u32_at(bytes, 8);
  if (length != bytes.size()) {
    problems.add("the GLB's header says " + count(length) + " bytes, the file holds " +
                 count(bytes.size()) + (length > bytes.size() ? ": cut short" : ": too many"));
    return false;
  }
  return true;
}

struct Chunk {
  std::uint32_t type = 0;
  Bytes bytes;
};

/// The chunk that begins at `at`, which is moved past it.
std::optional<Chunk> next_chunk(Bytes bytes, std::size_t& at, Problems& problems) {
  const std::string where = "the GLB's chunk at byte " + count(at);
  if (bytes.size() - at < chunk_header_bytes) {
    problems.add(where + " is cut short: its header is 8 bytes, " + count(bytes.size() - at) +
                 " are left");
    return std::nullopt;
  }
  const std::uint32_t length = u32_at(bytes, at);
  const std::size_t left = bytes.size() - at - chunk_header_bytes;
  if (length > left) {
    problems.add(where + " says " + count(length) + " bytes, " + count(left) + " are left");
    return std::nullopt;
  }
  if (length % 4 != 0) {
    problems.add(where + " is " + count(length) + " bytes long; chunks are padded to whole fours");
    return std::nullopt;
  }
  const Chunk chunk{u32_at(bytes, at + 4), bytes.subspan(at + chunk_header_bytes, length)};
  at += chunk_header_bytes + length;
  return chunk;
}

std::optional<Container> split_glb(Bytes bytes, Problems& problems) {
  if (!header_is_sound(bytes, problems)) {
    return std::nullopt;
  }
  Container container;
  std::size_t at = header_bytes;
  for (int number = 0; at < bytes.size() || number == 0; ++number) {
    const auto chunk = next_chunk(bytes, at, problems);
    if (!chunk) {
      return std::nullopt;
    }
    if (number == 0 && chunk->type != chunk_json) {
      problems.add("the GLB's first chunk is not JSON");
      return std::nullopt;
    }
    if (number == 0) {
      container.json = as_text(chunk->bytes);
    } else if (number == 1 && chunk->type == chunk_binary) {
      container.binary = chunk->bytes;
      container.has_binary = true;
    }
  }
  return container;
}

/// Nesting and number of values, found without building anything: the parser that
/// comes after keeps both in memory, and whoever follows the nesting needs a stack.
bool size_is_sound(std::string_view text, const ModelLimits& limits, Problems& problems) {
  int depth = 0;
  std::uint64_t values = 1;
  bool in_text = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (in_text) {
      i += c == '\\' ? 1 : 0;
      in_text = c != '"';
      continue;
    }
    in_text = c == '"';
    depth -= c == ']' || c == '}' ? 1 : 0;
    if (c == '[' || c == '{') {
      ++values;
      if (++depth > limits.json_depth) {
        problems.add("the JSON is nested deeper than " + std::to_string(limits.json_depth) +
                     " at its byte " + count(i));
        return false;
      }
    }
    values += c == ',' ? 1 : 0;
  }
  if (values > limits.json_values) {
    problems.add("the JSON holds more than " + count(limits.json_values) + " values");
    return false;
  }
  return true;
}

} // namespace

std::optional<Container> split_container(Bytes bytes, const ModelLimits& limits,
                                         Problems& problems) {
  if (bytes.empty()) {
    problems.add("the file is empty");
    return std::nullopt;
  }
  if (bytes.size() > limits.file_bytes) {
    problems.add("the file is longer than the " + count(limits.file_bytes) +
                 " bytes that are read at most");
    return std::nullopt;
  }
  if (bytes.size() >= 4 && u32_at(bytes, 0) == magic_glb) {
    return split_glb(bytes, problems);
  }
  return Container{as_text(bytes), {}, false};
}

std::optional<json> parse_document(std::string_view text, const ModelLimits& limits,
                                   Problems& problems) {
  if (text.size() > limits.json_bytes) {
    problems.add("the JSON is " + count(text.size()) + " bytes long, at most " +
                 count(limits.json_bytes) + " are read");
    return std::nullopt;
  }
  if (!size_is_sound(text, limits, problems)) {
    return std::nullopt;
  }
  try {
    json document = json::parse(text);
    if (!document.is_object()) {
      problems.add("the JSON is " + shown_in_model(document) + "; glTF is an object");
      return std::nullopt;
    }
    return document;
  } catch (const json::parse_error& error) {
    problems.add("neither a GLB nor glTF: the JSON is wrong at its byte " + count(error.byte));
  } catch (const json::exception&) {
    problems.add("neither a GLB nor glTF: the JSON holds a number beyond all bounds");
  }
  return std::nullopt;
}

} // namespace lugline::gltf
