// The rules themselves, on texts that are right and wrong on purpose.
#include "tests/rooms/rules.h"

#include <catch2/catch.hpp>

using namespace lugline::rooms;

TEST_CASE("includes are found however they are spaced, and nothing else is") {
  const auto found = includes_of("#pragma once\n"
                                 "#include \"scene/mesh/mesh.h\"\n"
                                 "  #  include <vector> // why\n"
                                 "// #include <map>\n"
                                 "int include = 3;\n");
  REQUIRE(found.size() == 2);
  CHECK(found[0].line == 2);
  CHECK(found[0].path == "scene/mesh/mesh.h");
  CHECK(found[0].quoted);
  CHECK(found[1].line == 3);
  CHECK(found[1].path == "vector");
  CHECK_FALSE(found[1].quoted);
}

TEST_CASE("a room may include itself and the rooms above") {
  CHECK(wrong_includes("scene/seat/drop.cpp", "#include \"scene/seat/drop.h\"\n"
                                              "#include \"scene/part/solid.h\"\n"
                                              "#include <vector>\n")
            .empty());
  CHECK(wrong_includes("viewer/app/window.cpp", "#include \"scene/build/build.h\"\n"
                                                "#include \"viewer/panels/parts.h\"\n"
                                                "#include <GLFW/glfw3.h>\n"
                                                "#include <imgui.h>\n")
            .empty());
}

TEST_CASE("an include of a room further down is told with its line") {
  const auto told = wrong_includes("scene/part/solid.cpp", "#include <vector>\n"
                                                           "#include \"scene/seat/drop.h\"\n");
  REQUIRE(told.size() == 1);
  CHECK(told[0] ==
        "scene/part/solid.cpp:2: scene/part may not include scene/seat/drop.h: its room is "
        "further down");
  CHECK(wrong_includes("scene/sheet/sheet.cpp", "#include \"viewer/stage/picture.h\"\n").size() ==
        1);
  CHECK(wrong_includes("scene/sheet/sheet.cpp", "#include <viewer/stage/picture.h>\n").size() == 1);
  CHECK(wrong_includes("viewer/stage/stage.cpp", "#include \"viewer/draw/draw.h\"\n").size() == 1);
}

TEST_CASE("the window's libraries stay where they belong") {
  for (const char* header : {"imgui.h", "imgui_internal.h", "imgui/imgui.h", "GLFW/glfw3.h",
                             "epoxy/gl.h", "epoxy/egl.h", "GL/gl.h", "GLES3/gl3.h", "EGL/egl.h"}) {
    INFO(header);
    const std::string text = "#include <" + std::string(header) + ">\n";
    CHECK(wrong_includes("scene/pack/pack.cpp", text).size() == 1);
    CHECK(wrong_includes("viewer/stage/stage.cpp", text).size() == 1);
    CHECK(wrong_includes("viewer/cli/main.cpp", text).size() == 1);
  }
  CHECK(wrong_includes("scene/mesh/mesh.cpp", "#include <glm/glm.hpp>\n").size() == 1);
  CHECK(wrong_includes("viewer/draw/draw.cpp", "#include <epoxy/gl.h>\n").empty());
  CHECK(wrong_includes("viewer/panels/parts.cpp", "#include <imgui.h>\n").empty());
  CHECK(wrong_includes("viewer/panels/parts.cpp", "#include <epoxy/gl.h>\n").size() == 1);
}

TEST_CASE("paths start at the top, and every file is in a room") {
  CHECK(wrong_includes("scene/mesh/mesh.cpp", "#include \"mesh.h\"\n").size() == 1);
  CHECK(wrong_includes("scene/mesh/mesh.cpp", "#include \"../part/solid.h\"\n").size() == 1);
  CHECK(wrong_includes("scene/mesh/mesh.cpp", "#include \"scene/attic/box.h\"\n").size() == 1);
  CHECK(wrong_includes("scene/attic/box.cpp", "").size() == 1);
  CHECK(wrong_includes("scene/loose.h", "").size() == 1);
}

TEST_CASE("code is what is left without comments, literals and directives") {
  CHECK(code_of("a /* static int x; */ b // static\nc") == "a                     b          \nc");
  CHECK(code_of("f(\"static\", 's', 1'000);") == "f(\"      \", ' ', 1'000);");
  CHECK(code_of("\"a\\\"b\";x") == "\"    \";x");
  CHECK(code_of("#define X static \\\n int y;\nz") == "                  \n       \nz");
  const std::string raw = code_of("R\"(static int x; \" )\";y");
  CHECK(raw.find("static") == std::string::npos);
  CHECK(raw.substr(raw.size() - 2) == ";y");
}

TEST_CASE("a lasting variable is told") {
  const auto count = [](std::string_view text) {
    return lasting_state("viewer/panels/x.cpp", text).size();
  };
  CHECK(count("void f() { static int shown = 0; }") == 1);
  CHECK(count("void f() { static bool open; }") == 1);
  CHECK(count("void f() { static char text[64] = {}; }") == 1);
  CHECK(count("void f() { static std::vector<int> all{1, 2}; }") == 1);
  CHECK(count("void f() { static const char* name = \"a\"; }") == 1);
  CHECK(count("void f() { thread_local int shown = 0; }") == 1);
  CHECK(count("namespace a {\nnamespace {\nint shown = 0;\n}\n}") == 1);
  CHECK(count("namespace a { std::string text; }") == 1);
  CHECK(count("namespace a { State state{1, 2}; }") == 1);
  CHECK(count("int shown;") == 1);
  CHECK(count("Mesh f(const A& a = {});\nint shown;") == 1);
  CHECK(count("const A a = {1}; int shown = g({2});") == 1);
  CHECK(count("namespace a { int f() { return 1; } int shown = 0; }") == 1);
  CHECK(count("class A { static int shown; };") == 1);
  const auto told = lasting_state("viewer/panels/x.cpp", "\n\nstatic int x = 1;\n");
  REQUIRE(told.size() == 1);
  CHECK(told[0] == "viewer/panels/x.cpp:3: a variable that outlives the call and can change");
}

TEST_CASE("what cannot change or does not last is not told") {
  const auto sound = [](std::string_view text) {
    const auto told = lasting_state("viewer/panels/x.cpp", text);
    INFO(text << ": " << (told.empty() ? "" : told[0]));
    CHECK(told.empty());
  };
  sound("void f() { static const int most = 3; static constexpr int least = 1; }");
  sound("void f() { static const char* const name = \"a\"; }");
  sound("static void f(int a) { int b = a; g(b); }");
  sound("static int f(int a);");
  sound("void f() { const auto x = static_cast<int>(1.5); static_assert(true); }");
  sound("namespace a { constexpr float pad = 4; const int n = 2; inline constexpr int m = 3; }");
  sound("namespace a { constexpr std::array<int, 2> pair = {1, 2}; struct B { int c = 0; }; }");
  sound(
      "namespace a { enum class B { c, d }; using E = int; class F; template <class T> T g(T); }");
  sound("namespace a { std::vector<int> f(int b = 3) { return {b}; } }");
  sound("namespace a { bool operator==(const B& c, const B& d) { return c.e == d.e; } }");
  sound("// static int x;\nconst char* const s = \"static int y;\";");
  sound("Mesh mesh_of(const Solid& a, const Options& b = {});\nBook read(int c = 1);");
  sound("inline constexpr std::size_t most = std::size_t{1} << 20U;");
  sound("const std::vector<int> a = []() { std::vector<int> b; return b; }();");
  sound("struct A { int b = 0; std::string c; };");
}

TEST_CASE("outside influences are told") {
  CHECK(outside_influences("scene/a.cpp", "#include <chrono>\n").size() == 1);
  CHECK(outside_influences("scene/a.cpp", "auto x = std::getenv(\"HOME\");").size() == 1);
  CHECK(outside_influences("scene/a.cpp", "std::random_device r;").size() == 1);
  CHECK(outside_influences("scene/a.cpp", "int x = rand();").size() == 1);
  CHECK(outside_influences("scene/a.cpp", "// no rand, no getenv\nint brand = 1;").empty());
  CHECK(outside_influences("scene/a.cpp", "#include <random>\nstd::mt19937 r(seed);").empty());
}
