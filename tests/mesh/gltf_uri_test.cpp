// URIs that lead elsewhere: nothing outside the folder is opened, whatever they say.
#include "tests/mesh/gltf_files.h"

#include <sys/stat.h>

using namespace lugline;
using namespace lugline::files;

namespace {

/// A folder with a secret beside it and a model in it whose buffer is at `uri`.
struct Scene {
  Folder folder;
  File file = sound();

  Scene() {
    folder.write("secret.bin", file.binary);
    folder.write("unit/inside.bin", file.binary);
  }
  [[nodiscard]] ModelReport read_with(const std::string& uri) const {
    const auto model = folder.write("unit/parts/model.gltf", file.gltf(uri));
    return read_model(model, folder.path() / "unit");
  }
};

struct Case {
  const char* uri;
  const char* message;
};

} // namespace

TEST_CASE("URIs that are refused, each in its own words") {
  const Scene scene;
  const Case cases[] = {
      {"../../secret.bin",
       "buffer 0 cannot be read: URI \"../../secret.bin\" climbs out by \"..\"; only "
       "files beside the model are read"},
      {"../inside.bin",
       "buffer 0 cannot be read: URI \"../inside.bin\" climbs out by \"..\"; only files "
       "beside the model are read"},
      {"a/../../x.bin",
       "buffer 0 cannot be read: URI \"a/../../x.bin\" climbs out by \"..\"; only files "
       "beside the model are read"},
      {"%2e%2e/%2E%2E/secret.bin",
       "buffer 0 cannot be read: URI \"%2e%2e/%2E%2E/secret.bin\" climbs out by "
       "\"..\"; only files beside the model are read"},
      {"..%2fsecret.bin",
       "buffer 0 cannot be read: URI \"..%2fsecret.bin\" climbs out by \"..\"; only "
       "files beside the model are read"},
      {"a/..", "buffer 0 cannot be read: URI \"a/..\" climbs out by \"..\"; only files beside the "
               "model are "
               "read"},
      {"/etc/passwd",
       "buffer 0 cannot be read: URI \"/etc/passwd\" is absolute; only files beside the "
       "model are read"},
      {"%2fetc/passwd",
       "buffer 0 cannot be read: URI \"%2fetc/passwd\" is absolute; only files beside the "
       "model are read"},
      {"//host/share/x.bin",
       "buffer 0 cannot be read: URI \"//host/share/x.bin\" is absolute; only files "
       "beside the model are read"},
      {"file:///etc/passwd",
       "buffer 0 cannot be read: URI \"file:///etc/passwd\" names a scheme or a "
       "drive; only files beside the model are read"},
      {"https://example.com/x.bin",
       "buffer 0 cannot be read: URI \"https://example.com/x.bin\" names a "
       "scheme or a drive; only files beside the model are read"},
      {"C:\\\\x.bin",
       "buffer 0 cannot be read: URI \"C:\\\\\\\\x.bin\" names a scheme or a drive; only "
       "files beside the model are read"},
      {"..\\\\secret.bin",
       "buffer 0 cannot be read: URI \"..\\\\\\\\secret.bin\" holds a backslash; folders "
       "are parted by /"},
      {"a%5cb.bin",
       "buffer 0 cannot be read: URI \"a%5cb.bin\" holds a backslash; folders are parted by /"},
      {"a%00.bin", "buffer 0 cannot be read: URI \"a%00.bin\" holds a control character"},
      {"a%4.bin",
       "buffer 0 cannot be read: URI \"a%4.bin\" has a % that is not followed by two hexadecimal "
       "digits"},
      {"a%4", "buffer 0 cannot be read: URI \"a%4\" has a % that is not followed by two "
              "hexadecimal digits"},
      {"%",
       "buffer 0 cannot be read: URI \"%\" has a % that is not followed by two hexadecimal digits"},
      {"a%ff.bin",
       "buffer 0 cannot be read: URI \"a%ff.bin\" is not UTF-8 once its escapes are undone"},
      {"%c0%ae%c0%ae/x.bin",
       "buffer 0 cannot be read: URI \"%c0%ae%c0%ae/x.bin\" is not UTF-8 once its "
       "escapes are undone"},
      {"%ed%a0%80.bin",
       "buffer 0 cannot be read: URI \"%ed%a0%80.bin\" is not UTF-8 once its escapes are "
       "undone"},
      {"%f4%90%80%80",
       "buffer 0 cannot be read: URI \"%f4%90%80%80\" is not UTF-8 once its escapes are "
       "undone"},
      {"", "buffer 0 cannot be read: an empty URI; a file beside the model was expected"},
      {"wheel.bin", "buffer 0 cannot be read: file \"wheel.bin\" is missing"},
      {"no/such%20wheel.bin", "buffer 0 cannot be read: file \"no/such wheel.bin\" is missing"},
      {".", "buffer 0 cannot be read: file \".\" is a folder or a device"},
  };
  for (const Case& one : cases) {
    CAPTURE(one.uri);
    CHECK(problem(scene.read_with(one.uri)) == one.message);
  }
}

TEST_CASE("links that lead out of the folder are not followed, links inside are") {
  const Scene scene;
  const auto unit = scene.folder.path() / "unit";
  std::filesystem::create_directories(unit / "parts");
  std::filesystem::create_symlink(scene.folder.path() / "secret.bin", unit / "parts" / "out.bin");
  std::filesystem::create_symlink("../../secret.bin", unit / "parts" / "out2.bin");
  std::filesystem::create_directory_symlink(scene.folder.path(), unit / "parts" / "up");
  std::filesystem::create_symlink("../inside.bin", unit / "parts" / "in.bin");
  std::filesystem::create_symlink("gone.bin", unit / "parts" / "dangling.bin");
  CHECK(
      problem(scene.read_with("out.bin")) ==
      "buffer 0 cannot be read: file \"out.bin\" leads out of the folder; nothing outside is read");
  CHECK(problem(scene.read_with("out2.bin")) == "buffer 0 cannot be read: file \"out2.bin\" leads "
                                                "out of the folder; nothing outside is read");
  CHECK(problem(scene.read_with("up/secret.bin")) ==
        "buffer 0 cannot be read: file \"up/secret.bin\" leads out of the folder; nothing outside "
        "is read");
  CHECK(problem(scene.read_with("dangling.bin")) ==
        "buffer 0 cannot be read: file \"dangling.bin\" is missing");
  CHECK(nodes(scene.read_with("in.bin")).size() == 1);
}

TEST_CASE("a folder whose name only begins like the root is outside") {
  const Scene scene;
  scene.folder.write("unit-other/x.bin", scene.file.binary);
  std::filesystem::create_directories(scene.folder.path() / "unit/parts");
  std::filesystem::create_directory_symlink(scene.folder.path() / "unit-other",
                                            scene.folder.path() / "unit/parts/other");
  CHECK(problem(scene.read_with("other/x.bin")) ==
        "buffer 0 cannot be read: file \"other/x.bin\" leads out of the folder; nothing outside is "
        "read");
}

TEST_CASE("a pipe is not waited for") {
  const Scene scene;
  std::filesystem::create_directories(scene.folder.path() / "unit/parts");
  REQUIRE(::mkfifo((scene.folder.path() / "unit/parts/pipe.bin").c_str(), 0600) == 0);
  CHECK(problem(scene.read_with("pipe.bin")) ==
        "buffer 0 cannot be read: file \"pipe.bin\" is a folder or a device");
}

TEST_CASE("a .bin that is too short is told with both lengths") {
  const Scene scene;
  scene.folder.write("unit/parts/short.bin", Bytes(17, 0));
  CHECK(problem(scene.read_with("short.bin")) == "buffer 0 says 60 bytes, 17 are there");
}

TEST_CASE("the model itself is read only inside the root") {
  const Folder folder;
  const auto outside = folder.write("model.glb", sound().glb());
  const auto inside = folder.write("unit/model.glb", sound().glb());
  const auto root = folder.path() / "unit";
  CHECK(nodes(read_model(inside, root)).size() == 1);
  CHECK(nodes(read_model(root / "." / "model.glb", root / "")).size() == 1);
  CHECK(problem(read_model(outside, root)) ==
        "file \"model.glb\" leads out of the folder; nothing outside is read");
  CHECK(problem(read_model(root / ".." / "model.glb", root)) ==
        "file \"model.glb\" leads out of the folder; nothing outside is read");
  CHECK(problem(read_model(root / "none.glb", root)) == "file \"none.glb\" is missing");
  CHECK(problem(read_model(root, root)) == "file \"unit\" is a folder or a device");
  CHECK(problem(read_model(inside, folder.path() / "nowhere"))
            .ends_with("is missing or cannot be opened"));
  std::filesystem::create_symlink("../model.glb", root / "link.glb");
  CHECK(problem(read_model(root / "link.glb", root)) ==
        "file \"link.glb\" leads out of the folder; nothing outside is read");
}
