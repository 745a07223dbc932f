// GLB headers and chunks, and the JSON itself, before anything in it is looked at.
#include "tests/mesh/gltf_files.h"

using namespace lugline;
using namespace lugline::files;

namespace {

void put_at(Bytes& bytes, std::size_t at, std::uint32_t figure) {
  for (std::size_t i = 0; i < 4; ++i) {
    bytes[at + i] = static_cast<unsigned char>(figure >> (8 * i));
  }
}

/// The header's length set to what is there, so that the fault is elsewhere.
void fix_length(Bytes& bytes) {
  put_at(bytes, 8, static_cast<std::uint32_t>(bytes.size()));
}

std::string nested(std::size_t depth, const char* around) {
  return std::string(around) + std::string(depth, '[') + std::string(depth, ']') + "}";
}

} // namespace

TEST_CASE("an empty file, and one that is no model") {
  CHECK(problem(read(Bytes())) == "the file is empty");
  CHECK(problem(read(std::string("hello"))) ==
        "neither a GLB nor glTF: the JSON is wrong at its byte 1");
  CHECK(problem(read(std::string("{\"asset\": }"))) ==
        "neither a GLB nor glTF: the JSON is wrong at its byte 11");
  CHECK(problem(read(std::string("{\"a\": 1e999}"))) ==
        "neither a GLB nor glTF: the JSON holds a number beyond all bounds");
  CHECK(problem(read(std::string("[1, 2]"))) == "the JSON is a list; glTF is an object");
  CHECK(problem(read(std::string("{}"))) ==
        "the file has no asset: it does not say that it is glTF 2.0");
  CHECK(problem(read(std::string("{\"asset\": \"\xff\"}"))).starts_with("neither a GLB nor glTF"));
}

TEST_CASE("a GLB cut short anywhere is refused") {
  const Bytes whole = sound().glb();
  for (std::size_t size = 0; size < whole.size(); ++size) {
    CAPTURE(size);
    const ModelReport report =
        read(Bytes(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(size)));
    CHECK(report.nodes.empty());
    CHECK_FALSE(report.problems.empty());
  }
  CHECK(problem(read(Bytes(whole.begin(), whole.begin() + 11))) ==
        "GLB cut short: 11 bytes, its header alone is 12");
  const std::string size = std::to_string(whole.size());
  CHECK(problem(read(Bytes(whole.begin(), whole.begin() + 40))) ==
        "the GLB's header says " + size + " bytes, the file holds 40: cut short");
}

TEST_CASE("a GLB with a byte more than it says") {
  Bytes bytes = sound().glb();
  const std::string size = std::to_string(bytes.size());
  const std::string more = std::to_string(bytes.size() + 1);
  bytes.push_back(0);
  CHECK(problem(read(bytes)) ==
        "the GLB's header says " + size + " bytes, the file holds " + more + ": too many");
}

TEST_CASE("a GLB of another version") {
  Bytes bytes = sound().glb();
  put_at(bytes, 4, 1);
  CHECK(problem(read(bytes)) == "GLB version 1; version 2 is understood");
}

TEST_CASE("faults of a GLB's chunks") {
  Bytes bytes = sound().glb();
  put_at(bytes, 12, 0xfffffffc);
  CHECK(problem(read(bytes)) == "the GLB's chunk at byte 12 says 4294967292 bytes, " +
                                    std::to_string(bytes.size() - 20) + " are left");
  bytes = sound().glb();
  put_at(bytes, 16, 0x004e4942);
  CHECK(problem(read(bytes)) == "the GLB's first chunk is not JSON");
  bytes = sound().glb();
  put_at(bytes, 12, 5);
  CHECK(problem(read(bytes)) ==
        "the GLB's chunk at byte 12 is 5 bytes long; chunks are padded to whole fours");
  bytes = {'g', 'l', 'T', 'F', 2, 0, 0, 0, 12, 0, 0, 0};
  CHECK(problem(read(bytes)) ==
        "the GLB's chunk at byte 12 is cut short: its header is 8 bytes, 0 are left");
  bytes = sound().glb();
  const std::size_t end = bytes.size();
  bytes.resize(end + 4);
  fix_length(bytes);
  CHECK(problem(read(bytes)) == "the GLB's chunk at byte " + std::to_string(end) +
                                    " is cut short: its header is 8 bytes, 4 are left");
}

TEST_CASE("extras nested 20,000 deep, and 5,000, and 62") {
  const auto with_extras = [](std::size_t depth) {
    File file = sound();
    std::string text = file.closed().dump();
    text.insert(1, "\"extras\":" + std::string(depth, '[') + std::string(depth, ']') + ",");
    return read(glb_of(text, file.binary));
  };
  CHECK(problem(with_extras(20000)).starts_with("the JSON is nested deeper than 64 at its byte "));
  CHECK(problem(with_extras(5000)).starts_with("the JSON is nested deeper than 64 at its byte "));
  CHECK(problem(with_extras(64)).starts_with("the JSON is nested deeper than 64 at its byte "));
  CHECK(nodes(with_extras(63)).size() == 1);
  CHECK(problem(read(nested(2'000'000, "{\"a\":"))).starts_with("the JSON is nested deeper"));
}

TEST_CASE("brackets in text are not nesting, whatever their quotes") {
  File file = sound();
  file.doc["nodes"][0]["name"] = "[[[[\"[[[[\\" + std::string(100, '{');
  CHECK(nodes(file)[0].name == file.doc["nodes"][0]["name"]);
}

TEST_CASE("JSON of more values than is sensible, and files longer than that") {
  ModelLimits limits;
  limits.json_values = 100;
  CHECK(problem(read("{\"a\":[" + std::string(200, ',') + "]}", limits)) ==
        "the JSON holds more than 100 values");
  limits = {};
  limits.json_bytes = 10;
  CHECK(problem(read(std::string("{\"asset\": 1}"), limits)) ==
        "the JSON is 12 bytes long, at most 10 are read");
  limits = {};
  limits.file_bytes = 11;
  CHECK(problem(read(std::string("{\"asset\": 1}"), limits)) ==
        "the file is longer than the 11 bytes that are read at most");
  // All buffers together are held to the size of a file.
  limits.file_bytes = 2000;
  File file = sound();
  file.doc["buffers"] = {{{"byteLength", 60}},
                         {{"byteLength", 1941}, {"uri", "data:;base64,AAAA"}}};
  CHECK(problem(file, limits) == "buffer 1 says 1941 bytes; 1 to 1940 were expected");
}
