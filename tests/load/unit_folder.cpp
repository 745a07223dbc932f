#include "tests/load/unit_folder.h"

#include "scene/mesh/gltf.h"
#include "scene/part/extras.h"
#include "scene/recipe/recipe.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>
#include <stdlib.h>

namespace lugline::test {

namespace {

constexpr const char* small_unit = R"(# A small sound unit.
schema = 1
name = "Small unit"
label = "invented practice data"
invented = true
notice = "The unit's service manual decides."

[[component]]
id = "HUB"
name = "Hub"
label = "hub"
file = "parts/HUB.glb"

[[component]]
id = "PST"
name = "Piston"
label = "piston"
kind = "piston"
material = "aluminium"
  [[component.ring]]
  inner_diameter = "44 mm"
  outer_diameter = "90 mm"
  low = "0 mm"
  high = "10 mm"

[[component]]
id = "ST"
name = "Steel"
label = "steel"
file = "parts/ST.glb"
count = 2
thickness = "2.0 mm"

[[component]]
id = "FR"
name = "Friction"
label = "friction"
kind = "friction"
material = "friction lining"
count = 2
  [[component.ring]]
  inner_diameter = "50 mm"
  outer_diameter = "88 mm"
  low = "0 mm"
  high = "1.6 mm"

[[component]]
id = "BP"
name = "Backing plate"
label = "backing plate"
kind = "backing plate"
options = ["4.8 mm", "5.0 mm", "5.2 mm"]
  [[component.ring]]
  inner_diameter = "50 mm"
  outer_diameter = "88 mm"
  low = "0 mm"
  high = "5.0 mm"

[[component]]
id = "RG"
name = "Snap ring"
label = "ring"
kind = "snap ring"
  [[component.ring]]
  inner_diameter = "80 mm"
  outer_diameter = "96 mm"
  low = "0 mm"
  high = "1.5 mm"

[[component]]
id = "TL"
name = "Compressor"
label = "compressor"
kind = "tool"
  [[component.ring]]
  inner_diameter = "50 mm"
  outer_diameter = "60 mm"
  low = "0 mm"
  high = "3 mm"

[[component]]
id = "TRAY"
name = "Tray"
label = "tray"
  [[component.ring]]
  inner_diameter = "0 mm"
  outer_diameter = "120 mm"
  low = "-5 mm"
  high = "0 mm"
  feature = "top"

[[pack]]
id = "CC"
name = "Clutch"
piston = "PST"
plates = ["ST1", "FR1", "ST2", "FR2", "BP"]
ring = "RG"
groove = "HUB/ring groove"
selective = ["BP"]
clearance = ["0.50 mm", "1.10 mm"]
wave = "flat"

[[play]]
id = "float"
name = "Piston float"
moving = ["PST"]
after = "piston"
limits = ["0.1 mm", "0.4 mm"]
)";

constexpr const char* small_sequence = R"(schema = 1

[[place]]
id = "bench"
name = "Bench"
base = "HUB"

[[place]]
id = "tray place"
name = "Tray"
base = "TRAY"

[[step]]
id = "hub"
kind = "place"
place = "bench"
chapter = "The hub"
part = "HUB"
do = "Stand the hub on the bench."

[[step]]
id = "piston"
kind = "place"
place = "bench"
part = "PST"
seat = "HUB"
do = "Put the piston in."
know = "It turns by hand."
joint = { kind = "sprung" }

[[step]]
id = "soak"
kind = "soak"
place = "bench"
parts = ["FR1", "FR2"]
do = "Soak the frictions."

[[step]]
id = "steel 1"
kind = "place"
place = "bench"
part = "ST1"
seat = "PST"
key = "ST1/lug"
turn = "90 deg"
way_up = "turned over"
joint = { kind = "slides", to = "HUB" }
do = "Lay the first steel in."
wrong_way = "It does not matter."
camera = { turn = "30 deg", rise = "40 deg", closeness = 2 }

[[step]]
id = "friction 1"
kind = "place"
place = "bench"
part = "FR1"
seat = "ST1"
joint = { kind = "turns" }
do = "Lay the first friction in."

[[step]]
id = "steel 2"
kind = "place"
place = "bench"
part = "ST2"
seat = "FR1"
do = "Lay the second steel in."

[[step]]
id = "friction 2"
kind = "place"
place = "bench"
part = "FR2"
seat = "ST2"
joint = { kind = "turns one way", free = "clockwise", seen_from = "front end" }
do = "Lay the second friction in."

[[step]]
id = "backing plate"
kind = "place"
place = "bench"
part = "BP"
seat = "FR2"
do = "Lay the backing plate in."

[[step]]
id = "press"
kind = "press"
place = "bench"
part = "BP"
press_to = "17.0 mm"
do = "Press the pack down."
caution = "Keep your face out of line."

[[step]]
id = "ring"
kind = "place"
place = "bench"
part = "RG"
groove = "HUB/ring groove"
lets_go = ["BP"]
do = "Fit the ring."
caution = "It flies."

[[step]]
id = "clearance"
kind = "measure"
place = "bench"
by = "gauge"
reading = { of = "clearance:CC", expect = "0.80 mm", low = "0.50 mm", high = "1.10 mm", places = 3 }
do = "Measure the clearance."

[[step]]
id = "depth"
kind = "measure"
place = "bench"
reading = { of = "depth:HUB@45 mm", expect = "40 mm", low = "39 mm", high = "41 mm" }
do = "Measure the depth to the floor."

[[step]]
id = "to the tray"
kind = "bring"
place = "tray place"
brings = "bench"
seat = "TRAY"
do = "Set the hub on the tray."
)";

std::string in_place_of(std::string text, const std::string& was, const std::string& now) {
  const std::size_t at = text.find(was);
  REQUIRE(at != std::string::npos);
  REQUIRE(text.find(was, at + 1) == std::string::npos);
  return text.replace(at, was.size(), now);
}

Component drawn(const std::string& id, const std::string& name, ComponentKind kind) {
  Component component;
  component.id = id;
  component.name = name;
  component.kind = kind;
  component.material = "steel";
  return component;
}

} // namespace

Component hub() {
  Component part = drawn("HUB", "Hub", ComponentKind::support);
  part.solid.rings = {{0.010, 0.050, -0.005, 0, {}, "floor", ""},
                      {0.010, 0.020, 0, 0.030, {}, "tower", ""},
                      {0.047, 0.050, 0, 0.040, {}, "wall", ""}};
  part.grooves = {{"ring groove", true, 0.0262, 0.0280, 0.049, 0.047, true}};
  part.keys = {{"slot", "", 0, 0.047, 0.049, 0, 0.040, 0.009}};
  return part;
}

Component steel() {
  Component part = drawn("ST", "Steel", ComponentKind::steel);
  part.solid.rings = {{0.025, 0.044, 0, 0.002, {}, "", ""}};
  part.figures = {{"thickness", 0.002, 0, 0.002}};
  part.keys = {{"lug", "HUB/slot", 0, 0.044, 0.046, 0, 0.002, 0.008}};
  return part;
}

UnitFolder::UnitFolder() : unit(small_unit), sequence(small_sequence) {
  std::string name = (std::filesystem::temp_directory_path() / "lugline-unit-XXXXXX").string();
  REQUIRE(mkdtemp(name.data()) != nullptr);
  path_ = std::filesystem::canonical(name);
  std::filesystem::create_directory(path_ / "parts");
  write_model("HUB.glb", {hub()});
  write_model("ST.glb", {steel()});
}

UnitFolder::~UnitFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

void UnitFolder::change_unit(const std::string& was, const std::string& now) {
  unit = in_place_of(unit, was, now);
}

void UnitFolder::change_sequence(const std::string& was, const std::string& now) {
  sequence = in_place_of(sequence, was, now);
}

void UnitFolder::write_model(const std::string& file, const std::vector<Component>& components,
                             bool with_features, double scale) {
  std::vector<Mesh> meshes;
  for (const Component& component : components) {
    Mesh mesh = mesh_of(component.solid, component.material);
    for (Vec3& position : mesh.positions_m) {
      position = {position.x * scale, position.y * scale, position.z * scale};
    }
    meshes.push_back(std::move(mesh));
  }
  std::vector<ModelPart> parts;
  for (std::size_t i = 0; i < components.size(); ++i) {
    parts.push_back({components[i].id, &meshes[i],
                     with_features ? extras_text_of(components[i]) : std::string()});
  }
  const std::vector<unsigned char> glb = write_glb(parts);
  write_file("parts/" + file, std::string(glb.begin(), glb.end()));
}

void UnitFolder::write_file(const std::string& name, const std::string& bytes) {
  std::ofstream out(path_ / name, std::ios::binary);
  out << bytes;
  REQUIRE(out.good());
}

LoadReport UnitFolder::load() {
  write_file("unit.toml", unit);
  write_file("sequence.toml", sequence);
  return load_unit(path_);
}

int line_of(const std::string& text, const std::string& needle) {
  const std::size_t at = text.find(needle);
  REQUIRE(at != std::string::npos);
  return 1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<long>(at), '\n'));
}

bool found(const std::vector<Complaint>& all, const std::string& file, int line,
           const std::string& words) {
  return std::ranges::count_if(all, [&](const Complaint& complaint) {
           return complaint.file == file && (line == 0 || complaint.line == line) &&
                  (complaint.message + " " + complaint.hint).find(words) != std::string::npos;
         }) == 1;
}

std::string text_of(const std::vector<Complaint>& all) {
  std::string text;
  for (const Complaint& complaint : all) {
    text += lugline::text_of(complaint) + "\n";
  }
  return text;
}

std::string text_of(const LoadReport& report) {
  return "complaints:\n" + text_of(report.complaints) + "questions:\n" + text_of(report.questions);
}

} // namespace lugline::test
