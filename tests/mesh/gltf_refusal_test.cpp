// Bad glTF made by hand: each fault has its own words, and none brings the reader down.
#include "tests/mesh/gltf_files.h"

#include <functional>
#include <limits>

using namespace lugline;
using namespace lugline::files;

namespace {

struct Fault {
  const char* what;
  std::function<void(File&)> make;
  const char* message;
};

void check(const std::vector<Fault>& faults) {
  for (const Fault& fault : faults) {
    CAPTURE(fault.what);
    File file = sound();
    fault.make(file);
    CHECK(problem(file) == fault.message);
  }
}

json& view(File& file, std::size_t i) {
  return file.doc["bufferViews"][i];
}
json& accessor(File& file, std::size_t i) {
  return file.doc["accessors"][i];
}
json& primitive(File& file) {
  return file.doc["meshes"][0]["primitives"][0];
}
json& node(File& file, std::size_t i) {
  return file.doc["nodes"][i];
}

constexpr float no_number = std::numeric_limits<float>::quiet_NaN();
constexpr float infinity = std::numeric_limits<float>::infinity();

/// Position 2 of the sound file.
void put_position(File& file, float x, float y, float z) {
  const Bytes bytes = bytes_of<float>({x, y, z});
  std::copy(bytes.begin(), bytes.end(), file.binary.begin() + 24);
}

void make_sparse(File& file, const Bytes& indices, int component, std::size_t count) {
  const int where = file.view(indices);
  const int what = file.view(bytes_of(std::vector<float>(3 * count, 0.5f)));
  accessor(file, 0)["sparse"] = {{"count", count},
                                 {"indices", {{"bufferView", where}, {"componentType", component}}},
                                 {"values", {{"bufferView", what}}}};
}

void quantize(File& file) {
  file.doc["extensionsUsed"] = {"KHR_mesh_quantization"};
  file.doc["extensionsRequired"] = {"KHR_mesh_quantization"};
}

/// Normalised 8-bit ones, the last accessor of the file.
void add_small_normals(File& file, int stride) {
  const int where = file.view(bytes_of(std::vector<std::int8_t>(16, 127)), stride);
  primitive(file)["attributes"]["NORMAL"] = file.accessor(where, 5120, 4, "VEC3");
  file.doc["accessors"].back()["normalized"] = true;
}

} // namespace

TEST_CASE("the sound file that the faults start from is read") {
  CHECK(nodes(sound()).size() == 1);
}

TEST_CASE("faults of the asset and its extensions") {
  check({
      {"no asset", [](File& f) { f.doc.erase("asset"); },
       "the file has no asset: it does not say that it is glTF 2.0"},
      {"glTF 1", [](File& f) { f.doc["asset"]["version"] = "1.0"; },
       "asset is glTF version \"1.0\"; 2.0 is understood"},
      {"a version that is a number", [](File& f) { f.doc["asset"]["version"] = 2; },
       "asset has version 2; text was expected"},
      {"a later one at least", [](File& f) { f.doc["asset"]["minVersion"] = "2.1"; },
       "asset asks for glTF version \"2.1\" at least; 2.0 is understood"},
      {"an unknown required extension",
       [](File& f) { f.doc["extensionsRequired"] = {"KHR_draco_mesh_compression"}; },
       "the file requires extension \"KHR_draco_mesh_compression\", which is not understood"},
      {"two of them",
       [](File& f) {
         f.doc["extensionsUsed"] = {"EXT_a", "KHR_mesh_quantization", "EXT_b"};
         f.doc["extensionsRequired"] = {"EXT_a", "KHR_mesh_quantization", "EXT_b"};
       },
       "the file requires extension \"EXT_a\", which is not understood | the file requires "
       "extension "
       "\"EXT_b\", which is not understood"},
      {"a required extension that is a number", [](File& f) { f.doc["extensionsRequired"] = {7}; },
       "the file requires extension 7, which is not understood"},
      {"one that is required and not used",
       [](File& f) { f.doc["extensionsRequired"] = {"KHR_mesh_quantization"}; },
       "the file requires KHR_mesh_quantization and does not list it in extensionsUsed"},
      {"a list that is none", [](File& f) { f.doc["nodes"] = 3; },
       "the file has nodes 3; a list was expected"},
  });
}

TEST_CASE("faults of buffers") {
  check({
      {"a buffer that says more than there is",
       [](File& f) {
         f.doc["buffers"] = {{{"byteLength", 400}}};
       },
       "buffer 0 says 400 bytes, 60 are there"},
      {"a buffer of no length", [](File& f) { f.doc["buffers"] = json::array({json::object()}); },
       "buffer 0 has no byteLength"},
      {"a buffer of nothing",
       [](File& f) {
         f.doc["buffers"] = {{{"byteLength", 0}}};
       },
       "buffer 0 says 0 bytes; 1 to 1073741824 were expected"},
      {"a length below nothing",
       [](File& f) {
         f.doc["buffers"] = {{{"byteLength", -4}}};
       },
       "buffer 0 has byteLength -4; a whole number from 0 was expected"},
      {"a broken length",
       [](File& f) {
         f.doc["buffers"] = {{{"byteLength", 60.5}}};
       },
       "buffer 0 has byteLength 60.5; a whole number from 0 was expected"},
      {"a second buffer without a uri",
       [](File& f) {
         f.doc["buffers"] = {{{"byteLength", 60}}, {{"byteLength", 4}}};
       },
       "buffer 1 has no uri; only the first buffer may be the GLB's own"},
      {"a buffer that is no object",
       [](File& f) {
         f.doc["buffers"] = {{{"byteLength", 60}}, 7};
       },
       "buffer 1 is 7; an object was expected"},
      {"a uri that is no text",
       [](File& f) {
         f.doc["buffers"] = {{{"byteLength", 60}, {"uri", 5}}};
       },
       "buffer 0 has uri 5; text was expected"},
      {"data that is not base64",
       [](File& f) {
         f.doc["buffers"] = {
             {{"byteLength", 60}, {"uri", "data:application/octet-stream;base64,AA*A"}}};
       },
       "buffer 0 has a data URI with a character that is not base64, or cut short"},
      {"data cut short",
       [](File& f) {
         f.doc["buffers"] = {{{"byteLength", 60}, {"uri", "data:;base64,AAAAA"}}};
       },
       "buffer 0 has a data URI with a character that is not base64, or cut short"},
      {"data that says nothing of base64",
       [](File& f) {
         f.doc["buffers"] = {{{"byteLength", 60}, {"uri", "data:text/plain,hello"}}};
       },
       "buffer 0 has a data URI that is not base64"},
      {"data without a comma",
       [](File& f) {
         f.doc["buffers"] = {{{"byteLength", 60}, {"uri", "data:;base64"}}};
       },
       "buffer 0 has a data URI that is not base64"},
      {"data of fewer bytes",
       [](File& f) {
         f.doc["buffers"] = {{{"byteLength", 60}, {"uri", "data:;base64,AAAA"}}};
       },
       "buffer 0 says 60 bytes, 3 are there"},
  });
  CHECK(problem(read(sound().closed().dump())) ==
        "buffer 0 has no uri, and the file has no binary chunk");
  File many = sound();
  many.doc["buffers"] = json(5000, {{"byteLength", 60}});
  CHECK(problem(many) == "the file has 5000 buffers, at most 4096 are read");
}

TEST_CASE("faults of buffer views") {
  check({
      {"one that ends beyond its buffer", [](File& f) { view(f, 1)["byteLength"] = 464; },
       "buffer view 1 ends at byte 512 of a buffer of 60"},
      {"one that begins beyond its buffer", [](File& f) { view(f, 1)["byteOffset"] = 61; },
       "buffer view 1 begins at byte 61 of a buffer of 60"},
      {"one whose end overflows", [](File& f) { view(f, 1)["byteLength"] = 18446744073709551615u; },
       "buffer view 1 is 18446744073709551615 bytes long of a buffer of 60"},
      {"one whose beginning overflows",
       [](File& f) { view(f, 1)["byteOffset"] = 18446744073709551615u; },
       "buffer view 1 begins at byte 18446744073709551615 of a buffer of 60"},
      {"one of an unknown buffer", [](File& f) { view(f, 1)["buffer"] = 1; },
       "buffer view 1 uses buffer 1 of 1"},
      {"one of buffer -1", [](File& f) { view(f, 1)["buffer"] = -1; },
       "buffer view 1 uses buffer -1 of 1"},
      {"one of no buffer", [](File& f) { view(f, 1).erase("buffer"); },
       "buffer view 1 names no buffer"},
      {"one of no length", [](File& f) { view(f, 1).erase("byteLength"); },
       "buffer view 1 has no byteLength"},
      {"one of nothing", [](File& f) { view(f, 1)["byteLength"] = 0; },
       "buffer view 1 is 0 bytes long"},
      {"a stride of two", [](File& f) { view(f, 0)["byteStride"] = 2; },
       "buffer view 0 has a byteStride of 2; 4 to 252 in whole fours was expected"},
      {"a stride of nothing", [](File& f) { view(f, 0)["byteStride"] = 0; },
       "buffer view 0 has a byteStride of 0; 4 to 252 in whole fours was expected"},
      {"a stride of thousands", [](File& f) { view(f, 0)["byteStride"] = 4096; },
       "buffer view 0 has a byteStride of 4096; 4 to 252 in whole fours was expected"},
  });
}

TEST_CASE("faults of accessors") {
  check({
      {"an unknown buffer view", [](File& f) { accessor(f, 0)["bufferView"] = 9; },
       "accessor 0 uses buffer view 9 of 2"},
      {"an unknown component type", [](File& f) { accessor(f, 0)["componentType"] = 5124; },
       "accessor 0 has component type 5124; 5120 to 5123, 5125 and 5126 are known"},
      {"an unknown type", [](File& f) { accessor(f, 0)["type"] = "VEC5"; },
       "accessor 0 is of type \"VEC5\"; SCALAR, VEC2 to VEC4 and MAT2 to MAT4 are known"},
      {"no type", [](File& f) { accessor(f, 0).erase("type"); },
       "accessor 0 is of type \"\"; SCALAR, VEC2 to VEC4 and MAT2 to MAT4 are known"},
      {"no count", [](File& f) { accessor(f, 0).erase("count"); }, "accessor 0 has no count"},
      {"a count of nothing", [](File& f) { accessor(f, 0)["count"] = 0; },
       "accessor 0 has no elements: its count is 0"},
      {"a count below nothing", [](File& f) { accessor(f, 0)["count"] = -1; },
       "accessor 0 has count -1; a whole number from 0 was expected"},
      {"one element too many", [](File& f) { accessor(f, 0)["count"] = 5; },
       "accessor 0 asks for 5 elements of 12 bytes from byte 0; buffer view 0 has room for 4"},
      {"a count of 4 Gi in a file of 1 KiB", [](File& f) { accessor(f, 0)["count"] = 4294967296u; },
       "accessor 0 asks for 4294967296 elements of 12 bytes from byte 0; buffer view 0 has room "
       "for 4"},
      {"a count whose bytes overflow",
       [](File& f) { accessor(f, 0)["count"] = 6148914691236517206u; },
       "accessor 0 asks for 6148914691236517206 elements of 12 bytes from byte 0; buffer view 0 "
       "has room "
       "for 4"},
      {"the greatest count of all",
       [](File& f) { accessor(f, 0)["count"] = 18446744073709551615u; },
       "accessor 0 asks for 18446744073709551615 elements of 12 bytes from byte 0; buffer view 0 "
       "has room "
       "for 4"},
      {"an offset beyond the view", [](File& f) { accessor(f, 0)["byteOffset"] = 4096; },
       "accessor 0 asks for 4 elements of 12 bytes from byte 4096; buffer view 0 has room for 0"},
      {"an offset that overflows",
       [](File& f) { accessor(f, 0)["byteOffset"] = 18446744073709551612u; },
       "accessor 0 asks for 4 elements of 12 bytes from byte 18446744073709551612; buffer view 0 "
       "has room "
       "for 0"},
      {"an offset between figures",
       [](File& f) {
         accessor(f, 0)["count"] = 3;
         accessor(f, 0)["byteOffset"] = 2;
       },
       "accessor 0 begins at byte 2 with a stride of 12; both must be multiples of 4"},
      {"a stride shorter than an element", [](File& f) { view(f, 0)["byteStride"] = 8; },
       "accessor 0 has elements of 12 bytes, more than the stride of 8 of buffer view 0"},
      {"a stride that leads out", [](File& f) { view(f, 0)["byteStride"] = 252; },
       "accessor 0 asks for 4 elements of 12 bytes from byte 0; buffer view 0 has room for 1"},
      {"4 Gi of nothing",
       [](File& f) {
         accessor(f, 0).erase("bufferView");
         accessor(f, 0)["count"] = 4294967296u;
       },
       "accessor 0 asks for 4294967296 elements out of nothing, at most 1000000 zeros are read"},
      {"normalised floats", [](File& f) { accessor(f, 0)["normalized"] = true; },
       "accessor 0 is normalised, which only 8-bit and 16-bit figures can be"},
      {"an accessor that is no object", [](File& f) { accessor(f, 0) = "x"; },
       "accessor 0 is \"x\"; an object was expected"},
  });
}

TEST_CASE("faults of sparse accessors") {
  check({
      {"an index beyond the count",
       [](File& f) {
         make_sparse(f, bytes_of<std::uint16_t>({1, 4}), 5123, 2);
       },
       "the list of sparse indices of accessor 0 names element 4 of 4"},
      {"indices that do not rise",
       [](File& f) {
         make_sparse(f, bytes_of<std::uint16_t>({2, 2}), 5123, 2);
       },
       "the list of sparse indices of accessor 0 must rise; 2 comes after 2"},
      {"more elements than there are",
       [](File& f) {
         make_sparse(f, bytes_of<std::uint16_t>({0, 1, 2, 3, 4}), 5123, 5);
       },
       "the sparse part of accessor 0 has 5 of 4 elements; 1 to all of them were expected"},
      {"none",
       [](File& f) {
         make_sparse(f, bytes_of<std::uint16_t>({0}), 5123, 1);
         accessor(f, 0)["sparse"]["count"] = 0;
       },
       "the sparse part of accessor 0 has 0 of 4 elements; 1 to all of them were expected"},
      {"an unknown index type", [](File& f) { make_sparse(f, bytes_of<float>({0}), 5126, 1); },
       "the list of sparse indices of accessor 0 has component type 5126; 5121, 5123 or 5125 was "
       "expected"},
      {"no indices",
       [](File& f) {
         make_sparse(f, bytes_of<std::uint16_t>({0}), 5123, 1);
         accessor(f, 0)["sparse"].erase("indices");
       },
       "the sparse part of accessor 0 lacks its indices or its values"},
      {"an unknown view for its indices",
       [](File& f) {
         make_sparse(f, bytes_of<std::uint16_t>({0}), 5123, 1);
         accessor(f, 0)["sparse"]["indices"]["bufferView"] = 77;
       },
       "the list of sparse indices of accessor 0 uses buffer view 77 of 4"},
      {"an unknown view for its values",
       [](File& f) {
         make_sparse(f, bytes_of<std::uint16_t>({0}), 5123, 1);
         accessor(f, 0)["sparse"]["values"]["bufferView"] = 77;
       },
       "the list of sparse values of accessor 0 uses buffer view 77 of 4"},
      {"values out of their view",
       [](File& f) {
         make_sparse(f, bytes_of<std::uint16_t>({0}), 5123, 1);
         accessor(f, 0)["sparse"]["values"]["byteOffset"] = 4;
       },
       "the list of sparse values of accessor 0 asks for 1 elements of 12 bytes from byte 4; "
       "buffer view 3 "
       "has room "
       "for 0"},
      {"indices out of their view",
       [](File& f) {
         make_sparse(f, bytes_of<std::uint16_t>({0}), 5123, 1);
         accessor(f, 0)["sparse"]["indices"]["byteOffset"] = 1024;
       },
       "the list of sparse indices of accessor 0 asks for 1 elements of 2 bytes from byte 1024; "
       "buffer view "
       "2 has "
       "room for 0"},
      {"indices out of nothing, beyond it",
       [](File& f) {
         make_sparse(f, bytes_of<std::uint16_t>({9}), 5123, 1);
         accessor(f, 0).erase("bufferView");
       },
       "the list of sparse indices of accessor 0 names element 9 of 4"},
      {"a strided view",
       [](File& f) {
         make_sparse(f, bytes_of<std::uint16_t>({0, 0}), 5123, 1);
         view(f, 2)["byteStride"] = 4;
       },
       "the list of sparse indices of accessor 0 uses buffer view 2, which has a byteStride; only "
       "vertices "
       "may"},
      {"a sparse part that is no object", [](File& f) { accessor(f, 0)["sparse"] = 3; },
       "the sparse part of accessor 0 is 3; an object was expected"},
  });
}

TEST_CASE("faults of images") {
  check({
      {"an image out of an unknown view",
       [](File& f) {
         f.doc["images"] = {{{"bufferView", 2}}};
       },
       "image 0 uses buffer view 2 of 2"},
      {"an image's view whose offset is beyond the buffer",
       [](File& f) {
         f.doc["bufferViews"].push_back(
             {{"buffer", 0}, {"byteOffset", 4294967295u}, {"byteLength", 16}});
         f.doc["images"] = {{{"bufferView", 2}, {"mimeType", "image/png"}}};
       },
       "buffer view 2 begins at byte 4294967295 of a buffer of 60"},
  });
}

TEST_CASE("faults of meshes") {
  check({
      {"no primitives", [](File& f) { f.doc["meshes"][0]["primitives"] = json::array(); },
       "mesh 0 has no primitives"},
      {"no attributes", [](File& f) { primitive(f).erase("attributes"); },
       "mesh 0, primitive 0, has no attributes"},
      {"no positions",
       [](File& f) {
         primitive(f)["attributes"] = {{"NORMAL", 0}};
       },
       "mesh 0, primitive 0, has no POSITION"},
      {"an unknown accessor", [](File& f) { primitive(f)["attributes"]["POSITION"] = 4; },
       "mesh 0, primitive 0, uses accessor 4 of 2"},
      {"an unknown accessor for something that is not read",
       [](File& f) { primitive(f)["attributes"]["TEXCOORD_0"] = 4; },
       "mesh 0, primitive 0, uses accessor 4 of 2"},
      {"unknown indices", [](File& f) { primitive(f)["indices"] = 4; },
       "mesh 0, primitive 0, uses accessor 4 of 2"},
      {"an unknown material", [](File& f) { primitive(f)["material"] = 0; },
       "mesh 0, primitive 0, uses material 0 of 0"},
      {"an unknown mode", [](File& f) { primitive(f)["mode"] = 7; },
       "mesh 0, primitive 0, is of mode 7; 0 to 6 are known"},
      {"an index beyond the positions", [](File& f) { f.binary[48] = 4; },
       "mesh 0, primitive 0, uses position 4 of 4"},
      {"the index that means begin again", [](File& f) { f.binary[48] = f.binary[49] = 0xff; },
       "mesh 0, primitive 0, uses position 65535 of 4"},
      {"indices that are no SCALAR",
       [](File& f) {
         accessor(f, 1)["type"] = "VEC3";
         accessor(f, 1)["count"] = 2;
       },
       "mesh 0, primitive 0, has indices that are VEC3 of unsigned 16-bit figures; unsigned whole "
       "SCALARs "
       "were expected"},
      {"signed indices", [](File& f) { accessor(f, 1)["componentType"] = 5122; },
       "mesh 0, primitive 0, has indices that are SCALAR of 16-bit figures; unsigned whole SCALARs "
       "were "
       "expected"},
      {"indices out of nothing", [](File& f) { accessor(f, 1).erase("bufferView"); },
       "mesh 0, primitive 0, has indices without a buffer view"},
      {"five corners", [](File& f) { accessor(f, 1)["count"] = 5; },
       "mesh 0, primitive 0, has 5 corners; triangles take three each"},
      {"a strip of two",
       [](File& f) {
         primitive(f)["mode"] = 5;
         accessor(f, 1)["count"] = 2;
       },
       "mesh 0, primitive 0, has 2 corners; a strip or fan takes at least three"},
      {"positions that are VEC4",
       [](File& f) {
         accessor(f, 0)["type"] = "VEC4";
         accessor(f, 0)["count"] = 3;
       },
       "mesh 0, primitive 0, has positions that are VEC4 of 32-bit float figures; VEC3 of 32-bit "
       "floats was "
       "expected"},
      {"positions of 32-bit wholes", [](File& f) { accessor(f, 0)["componentType"] = 5125; },
       "mesh 0, primitive 0, has positions that are VEC3 of unsigned 32-bit figures; VEC3 of "
       "32-bit floats "
       "was expected"},
      {"quantised positions that nobody announced",
       [](File& f) { accessor(f, 0)["componentType"] = 5122; },
       "mesh 0, primitive 0, has positions that are VEC3 of 16-bit figures, but the file does not "
       "use "
       "KHR_mesh_quantization"},
      {"quantised normals that nobody announced",
       [](File& f) {
         primitive(f)["attributes"]["NORMAL"] = f.accessor(0, 5122, 4, "VEC3");
         f.doc["accessors"].back()["normalized"] = true;
       },
       "mesh 0, primitive 0, has normals that are VEC3 of normalised 16-bit figures, but the file "
       "does not "
       "use KHR_mesh_quantization"},
      {"quantised positions of a file that only mentions the extension",
       [](File& f) {
         f.doc["extensionsUsed"] = {"KHR_mesh_quantization"};
         accessor(f, 0)["componentType"] = 5123;
       },
       "mesh 0, primitive 0, has positions that are VEC3 of unsigned 16-bit figures, but the file "
       "lists KHR_mesh_quantization as used and does not require it"},
      {"quantised normals of a file that only mentions it",
       [](File& f) {
         f.doc["extensionsUsed"] = {"KHR_mesh_quantization"};
         add_small_normals(f, 4);
       },
       "mesh 0, primitive 0, has normals that are VEC3 of normalised 8-bit figures, but the file "
       "lists KHR_mesh_quantization as used and does not require it"},
      {"quantised positions that are not padded",
       [](File& f) {
         quantize(f);
         accessor(f, 0)["componentType"] = 5122;
       },
       "mesh 0, primitive 0, has positions that begin at byte 0 of their view and lie 6 bytes "
       "apart; both must be multiples of 4"},
      {"quantised normals that are not padded",
       [](File& f) {
         quantize(f);
         add_small_normals(f, 0);
       },
       "mesh 0, primitive 0, has normals that begin at byte 0 of their view and lie 3 bytes "
       "apart; both must be multiples of 4"},
      {"quantised normals that begin between fours",
       [](File& f) {
         quantize(f);
         add_small_normals(f, 4);
         f.doc["accessors"].back()["byteOffset"] = 1;
       },
       "mesh 0, primitive 0, has normals that begin at byte 1 of their view and lie 4 bytes "
       "apart; both must be multiples of 4"},
      {"quantised positions whose stride is shorter than they are",
       [](File& f) {
         quantize(f);
         accessor(f, 0)["componentType"] = 5122;
         view(f, 0)["byteStride"] = 4;
       },
       "accessor 0 has elements of 6 bytes, more than the stride of 4 of buffer view 0"},
      {"positions in normalised floats",
       [](File& f) {
         quantize(f);
         accessor(f, 0)["normalized"] = true;
       },
       "accessor 0 is normalised, which only 8-bit and 16-bit figures can be"},
      {"unsigned normals",
       [](File& f) {
         quantize(f);
         add_small_normals(f, 4);
         f.doc["accessors"].back()["componentType"] = 5121;
       },
       "mesh 0, primitive 0, has normals that are VEC3 of normalised unsigned 8-bit figures; VEC3 "
       "of floats, or of normalised signed figures, was expected"},
      {"normals that are not normalised",
       [](File& f) {
         quantize(f);
         primitive(f)["attributes"]["NORMAL"] = f.accessor(0, 5122, 4, "VEC3");
       },
       "mesh 0, primitive 0, has normals that are VEC3 of 16-bit figures; VEC3 of floats, or of "
       "normalised "
       "signed figures, was expected"},
      {"three normals for four positions",
       [](File& f) { primitive(f)["attributes"]["NORMAL"] = f.accessor(0, 5126, 3, "VEC3"); },
       "mesh 0, primitive 0, has 3 normals for 4 positions"},
      {"a position that is not a number", [](File& f) { put_position(f, 0, no_number, 0); },
       "mesh 0, primitive 0, has a position that is not finite: number 2"},
      {"a position without end", [](File& f) { put_position(f, -infinity, 0, 0); },
       "mesh 0, primitive 0, has a position that is not finite: number 2"},
      {"a normal that is not a number",
       [](File& f) {
         primitive(f)["attributes"]["NORMAL"] =
             f.floats({0, 0, 1, 0, 0, 1, no_number, 0, 1, 0, 0, 1});
       },
       "mesh 0, primitive 0, has a normal that is not finite: number 2"},
      {"a position beyond all sense", [](File& f) { put_position(f, 3e9f, 0, 0); },
       "node 0 (\"[0]\") reaches further than 1000000000 m from the origin"},
      {"a material's name without end",
       [](File& f) {
         f.doc["materials"] = {{{"name", std::string(300, 'n')}}};
       },
       "material 0 has a name of 300 bytes, at most 256 are read"},
      {"a node of lines alone", [](File& f) { primitive(f)["mode"] = 3; },
       "node 0 has no triangles, only points or lines"},
      {"a node of points alone", [](File& f) { primitive(f)["mode"] = 0; },
       "node 0 has no triangles, only points or lines"},
      {"a strip of stitches alone",
       [](File& f) {
         primitive(f)["mode"] = 5;
         primitive(f)["indices"] = f.indices<std::uint16_t>({0, 1, 1, 0, 0});
       },
       "node 0 (\"[0]\") has no triangles that enclose anything"},
  });
}

TEST_CASE("faults of nodes") {
  check({
      {"an unknown mesh", [](File& f) { node(f, 0)["mesh"] = 1; }, "node 0 uses mesh 1 of 1"},
      {"an unknown child", [](File& f) { node(f, 0)["children"] = {5}; },
       "node 0 uses node 5 of 1"},
      {"children that are no list", [](File& f) { node(f, 0)["children"] = 5; },
       "node 0 has children 5; a list was expected"},
      {"its own child", [](File& f) { node(f, 0)["children"] = {0}; },
       "node 0 is its own ancestor"},
      {"a ring of three",
       [](File& f) {
         node(f, 0)["children"] = {1};
         f.doc["nodes"].push_back({{"children", {2}}});
         f.doc["nodes"].push_back({{"children", {0}}});
       },
       "node 0 is its own ancestor"},
      {"two parents",
       [](File& f) {
         f.doc["nodes"].push_back({{"children", {0}}});
         f.doc["nodes"].push_back({{"children", {0}}});
       },
       "node 0 has two parents, nodes 1 and 2"},
      {"a child listed twice",
       [](File& f) {
         f.doc["nodes"].push_back({{"children", {0, 0}}});
       },
       "node 1 lists node 0 twice"},
      {"a name that is no text", [](File& f) { node(f, 0)["name"] = 5; },
       "node 0 has name 5; text was expected"},
      {"a name without end", [](File& f) { node(f, 0)["name"] = std::string(1000, 'x'); },
       "node 0 has a name of 1000 bytes, at most 256 are read"},
      {"a matrix and a scale",
       [](File& f) {
         node(f, 0)["matrix"] = {1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1};
         node(f, 0)["scale"] = {1, 1, 1};
       },
       "node 0 has a matrix and a translation, rotation or scale; one or the other was expected"},
      {"a matrix of fifteen",
       [](File& f) { node(f, 0)["matrix"] = {1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0}; },
       "node 0 has a matrix that is not 16 finite numbers"},
      {"a matrix that is no placement",
       [](File& f) { node(f, 0)["matrix"] = {1, 0, 0, 1, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1}; },
       "node 0 has a matrix that is no placement: its last row is not 0 0 0 1"},
      {"a flat matrix",
       [](File& f) { node(f, 0)["matrix"] = {1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1}; },
       "node 0 (\"[0]\") is flattened by its transforms: their determinant is 0"},
      {"a scale of nothing",
       [](File& f) {
         node(f, 0)["name"] = "plate";
         node(f, 0)["scale"] = {1, 0, 1};
       },
       "node 0 (\"plate\") is flattened by its transforms: their determinant is 0"},
      {"a scale of nothing above it",
       [](File& f) {
         f.doc["nodes"].push_back({{"children", {0}}, {"scale", {0, 1, 1}}});
       },
       "node 0 (\"[1]/[0]\") is flattened by its transforms: their determinant is 0"},
      {"a translation of two",
       [](File& f) {
         node(f, 0)["translation"] = {1, 2};
       },
       "node 0 has a translation that is not 3 finite numbers"},
      {"a scale with a word in it",
       [](File& f) {
         node(f, 0)["scale"] = {1, "x", 2};
       },
       "node 0 has a scale that is not 3 finite numbers"},
      {"a rotation that is none",
       [](File& f) {
         node(f, 0)["rotation"] = {1, 1, 0, 0};
       },
       "node 0 has a rotation that is no unit quaternion"},
      {"a rotation of nothing",
       [](File& f) {
         node(f, 0)["rotation"] = {0, 0, 0, 0};
       },
       "node 0 has a rotation that is no unit quaternion"},
      {"transforms beyond all bounds",
       [](File& f) {
         node(f, 0)["scale"] = {1e200, 1e200, 1e200};
         f.doc["nodes"].push_back({{"children", {0}}, {"scale", {1e200, 1e200, 1e200}}});
       },
       "node 0 (\"[1]/[0]\") has transforms beyond all bounds"},
      {"a node that is no object", [](File& f) { f.doc["nodes"].push_back(nullptr); },
       "node 1 is null; an object was expected"},
  });
}

TEST_CASE("faults of scenes") {
  check({
      {"an unknown scene", [](File& f) { f.doc["scene"] = 0; }, "the file uses scene 0 of 0"},
      {"an unknown node",
       [](File& f) {
         f.doc["scene"] = 0;
         f.doc["scenes"] = {{{"nodes", {1}}}};
       },
       "scene 0 uses node 1 of 1"},
      {"a node listed twice",
       [](File& f) {
         f.doc["scene"] = 0;
         f.doc["scenes"] = {{{"nodes", {0, 0}}}};
       },
       "scene 0 lists node 0 twice"},
      {"a node that is no root",
       [](File& f) {
         f.doc["scene"] = 0;
         f.doc["scenes"] = {{{"nodes", {0}}}};
         f.doc["nodes"].push_back({{"children", {0}}});
       },
       "scene 0 lists node 0, which is below node 1; roots were expected"},
      {"a scene of nothing",
       [](File& f) {
         f.doc["scene"] = 0;
         f.doc["scenes"] = json::array({json::object()});
       },
       "no node of the scene has a mesh"},
      {"no node that shows anything", [](File& f) { node(f, 0).erase("mesh"); },
       "no node of the scene has a mesh"},
  });
}

TEST_CASE("nodes nested too deep are refused") {
  File file = sound();
  for (int i = 0; i < 63; ++i) {
    file.doc["nodes"].push_back({{"children", {i}}});
  }
  CHECK(nodes(file).size() == 1);
  file.doc["nodes"].push_back({{"children", {63}}});
  CHECK(problem(file) == "node 0 is nested deeper than 64");
}

TEST_CASE("a small file cannot ask for a great deal by showing one mesh often") {
  File file = sound();
  ModelLimits limits;
  limits.triangles = 10;
  for (int i = 0; i < 4; ++i) {
    file.doc["nodes"].push_back({{"mesh", 0}});
  }
  CHECK(nodes(read(file, limits)).size() == 5);
  file.doc["nodes"].push_back({{"mesh", 0}});
  CHECK(problem(file, limits)
            .starts_with("the nodes together hold more than is read: at most 10 triangles"));
  limits = {};
  limits.vertices = 35; // six triangles' worth and one short: flat corners are each their own
  CHECK_FALSE(read(file, limits).problems.empty());
  limits.vertices = 36;
  CHECK(read(file, limits).problems.empty());
  limits.primitives = 5;
  CHECK_FALSE(read(file, limits).problems.empty());
  limits = {};
  limits.path_bytes = 50;
  CHECK_FALSE(read(file, limits).problems.empty());
  limits = {};
  limits.nodes = 5;
  CHECK(problem(file, limits) == "the file has 6 nodes, at most 5 are read");
}

TEST_CASE("a small file cannot ask for a great deal by sharing a long sparse list") {
  File file = sound();
  make_sparse(file, bytes_of<std::uint16_t>({0, 1, 2}), 5123, 3);
  file.doc["accessors"].push_back(accessor(file, 0));
  ModelLimits limits;
  limits.vertices = 6;
  CHECK(read(file, limits).problems.empty());
  file.doc["accessors"].push_back(accessor(file, 0));
  CHECK(problem(file, limits) ==
        "the sparse part of accessor 3 is one too many: all together hold more than is read");
}

TEST_CASE("a primitive that uses three of many positions is charged for three") {
  File file;
  const int zeros = file.accessor(-1, 5126, 900'000, "VEC3");
  const int corners = file.indices<std::uint32_t>({1, 899'999, 3});
  json& first = file.mesh(zeros);
  first["indices"] = corners;
  const json copy = first;
  for (int i = 0; i < 20'000; ++i) { // takes minutes where every primitive reads every position
    file.doc["meshes"][0]["primitives"].push_back(copy);
  }
  CHECK(nodes(file)[0].mesh.triangles.size() == 20'001);
}

TEST_CASE("many faults are told in one go, and not without end") {
  File file = sound();
  for (int i = 0; i < 1000; ++i) {
    file.doc["accessors"].push_back(json::object());
  }
  const ModelReport report = read(file);
  CHECK(report.problems.size() == 51);
  CHECK(report.problems.back() == "… and more; these first");
}

TEST_CASE("a stranger's words are quoted safely") {
  File file = sound();
  node(file, 0)["name"] = "\x1b[31m\xc2\x9b"
                          "7\x7f\"quote\"";
  node(file, 0)["scale"] = {0, 0, 0};
  CHECK(problem(file) ==
        "node 0 (\"\\u001b[31m?7?\\\"quote\\\"\") is flattened by its transforms: their "
        "determinant is 0");
}
