// Twenty units drawn at random, from caliper figures to a checked sequence, whose heights
// are known by construction: each figure is chosen first, and the sums that it must give
// are taken along. All of it is invented.

#include "scene/build/judge.h"
#include "scene/load/load.h"
#include "scene/recipe/make.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>
#include <string>

using namespace lugline;

namespace {

namespace fs = std::filesystem;

constexpr double mm = 1e-3;
constexpr double inch = 25.4e-3;

/// A figure as somebody would write it, and what it is.
struct Written {
  std::string text;
  double m = 0;
};

class Dice {
public:
  explicit Dice(unsigned seed) : random_(seed) {}

  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  bool coin() { return whole(0, 1) == 1; }

  /// Hundredths of a millimetre, or thousandths of an inch.
  Written length(double low_mm, double high_mm) {
    char text[32];
    if (coin()) {
      const int hundredths = whole(static_cast<int>(low_mm * 100), static_cast<int>(high_mm * 100));
      std::snprintf(text, sizeof text, "%d.%02d mm", hundredths / 100, hundredths % 100);
      return {text, hundredths * 0.01 * mm};
    }
    const int mils =
        whole(static_cast<int>(low_mm / 0.0254) + 1, static_cast<int>(high_mm / 0.0254));
    std::snprintf(text, sizeof text, "%d.%03d in", mils / 1000, mils % 1000);
    return {text, mils * 0.001 * inch};
  }

private:
  std::mt19937 random_;
};

std::string in_mm_text(double length_m) {
  char text[40];
  std::snprintf(text, sizeof text, "%.7f mm", length_m / mm);
  return text;
}

/// A unit's three files, and what must come out.
struct Drawn {
  std::string recipes;
  std::string unit;
  std::string sequence;
  std::map<std::string, double> rests_m; ///< by step
  double clearance_m = 0;
  double play_m = 0;
  bool over = false;
};

class Draughtsman {
public:
  explicit Draughtsman(unsigned seed) : dice_(seed) {}

  Drawn draw() {
    drawn_.recipes = "schema = 1\nlabel = \"invented practice data\"\n";
    drawn_.unit = "schema = 1\nname = \"drawn by lot\"\nlabel = \"invented practice data\"\n"
                  "invented = true\n";
    drawn_.sequence = "schema = 1\n[[place]]\nid = \"bench\"\nname = \"bench\"\nbase = \"DRUM\"\n"
                      "[[place]]\nid = \"case\"\nname = \"case\"\nbase = \"CASE\"\n";
    drum();
    pack();
    into_the_case();
    return drawn_;
  }

private:
  void part(const std::string& id, const std::string& recipe, const std::string& figures) {
    drawn_.recipes += "[[part]]\nid = \"" + id + "\"\nname = \"" + id + "\"\nrecipe = \"" + recipe +
                      "\"\n" + figures;
    drawn_.unit += "[[component]]\nid = \"" + id + "\"\nlabel = \"" + id + "\"\nfile = \"parts/" +
                   id + ".glb\"\n";
  }

  static std::string section(double bore_m, double outside_m, double from_m, double to_m) {
    return "[[part.section]]\nbore = \"" + in_mm_text(bore_m) + "\"\noutside = \"" +
           in_mm_text(outside_m) + "\"\nfrom = \"" + in_mm_text(from_m) + "\"\nto = \"" +
           in_mm_text(to_m) + "\"\n";
  }

  static std::string groove(double land_m, double from_m, double to_m) {
    return "[[part.groove]]\nid = \"ring\"\nin = \"bore\"\nland = \"" + in_mm_text(land_m) +
           "\"\nbottom = \"" + in_mm_text(land_m + 6 * mm) + "\"\nfrom = \"" + in_mm_text(from_m) +
           "\"\nto = \"" + in_mm_text(to_m) + "\"\nloads = \"up\"\n";
  }

  void ring(const std::string& id, double land_m, const Written& thickness) {
    part(id, "snap ring",
         "springs = \"outward\"\nbore = \"" + in_mm_text(land_m - 10 * mm) + "\"\noutside = \"" +
             in_mm_text(land_m + 5.6 * mm) + "\"\nthickness = \"" + thickness.text +
             "\"\nfree_outside = \"" + in_mm_text(land_m + 9 * mm) + "\"\nsqueezed_outside = \"" +
             in_mm_text(land_m - 0.6 * mm) + "\"\ngap = \"30 deg\"\n");
  }

  void step(const std::string& id, const std::string& kind, const std::string& place,
            const std::string& more) {
    drawn_.sequence += "[[step]]\nid = \"" + id + "\"\nkind = \"" + kind + "\"\nplace = \"" +
                       place + "\"\nchapter = \"A\"\n" + more +
                       "do = \"Do it.\"\nknow = \"It is done.\"\n";
  }

  /// A step that puts a part in, and where it must come to rest.
  void in(const std::string& id, const std::string& place, const std::string& seat, double rest_m,
          const std::string& more = "") {
    step(id, "place", place, "part = \"" + id + "\"\nseat = \"" + seat + "\"\n" + more);
    drawn_.rests_m[id] = rest_m;
  }

  void drum() {
    floor_m_ = dice_.length(4, 12).m;
    piston_m_ = dice_.length(8, 20).m;
    plates_ = dice_.whole(1, 6);
    land_m_ = dice_.whole(90, 140) * mm;
    outside_m_ = land_m_ + dice_.whole(14, 24) * mm;
  }

  void pack() {
    step("stands", "place", "bench", "part = \"DRUM\"\njoint = { kind = \"fixed\" }\n");
    double top_m = floor_m_ + piston_m_;
    std::string seat = "PISTON";
    std::string names;
    in("PISTON", "bench", "DRUM", floor_m_, "joint = { kind = \"fixed\", to = \"DRUM\" }\n");
    for (int k = 0; k < 2 * plates_; ++k) {
      const std::string id = "P" + std::to_string(k + 1);
      const Written thickness = dice_.length(1.2, 3.0);
      part(id, "lugged plate",
           "role = \"steel\"\nbore = \"" + in_mm_text(land_m_ - 30 * mm) + "\"\noutside = \"" +
               in_mm_text(land_m_ - 1 * mm) + "\"\nthickness = \"" + thickness.text + "\"\n");
      in(id, "bench", seat, top_m, "joint = { kind = \"slides\", to = \"DRUM\" }\n");
      names += (k == 0 ? "\"" : ", \"") + id + "\"";
      top_m += thickness.m;
      seat = id;
    }
    drawn_.clearance_m = dice_.length(0.3, 2.0).m;
    const Written ring_m = dice_.length(1.5, 2.5);
    const double load_m = top_m + drawn_.clearance_m + ring_m.m;
    const double groove_m = load_m - ring_m.m - 0.2 * mm;
    height_m_ = load_m + dice_.length(3, 8).m;
    part("DRUM", "turned part",
         section(20 * mm, outside_m_, 0, floor_m_) +
             section(land_m_, outside_m_, floor_m_, height_m_) + groove(land_m_, groove_m, load_m));
    part("PISTON", "turned part",
         section(30 * mm, land_m_ - 0.4 * mm, 0, piston_m_ / 2) +
             section(land_m_ - 20 * mm, land_m_ - 0.4 * mm, piston_m_ / 2, piston_m_));
    ring("RING", land_m_, ring_m);
    step("ring in", "place", "bench",
         "part = \"RING\"\ngroove = \"DRUM/ring\"\njoint = { kind = \"retained\", to = \"DRUM\" "
         "}\n");
    drawn_.rests_m["ring in"] = groove_m;
    drawn_.unit +=
        "[[pack]]\nid = \"K\"\nname = \"K\"\npiston = \"PISTON\"\nplates = [" + names +
        "]\nring = \"RING\"\ngroove = \"DRUM/ring\"\nclearance = [\"0.1 mm\", \"3 mm\"]\n";
  }

  void into_the_case() {
    const double bore_m = outside_m_ + 2 * mm;
    const double case_floor_m = dice_.length(5, 15).m;
    step("case stands", "place", "case", "part = \"CASE\"\njoint = { kind = \"fixed\" }\n");
    double top_m = case_floor_m;
    std::string seat = "CASE";
    const int washers = dice_.whole(1, 3);
    for (int k = 0; k < washers; ++k) {
      const std::string id = "W" + std::to_string(k + 1);
      const Written thickness = dice_.length(1.0, 4.0);
      part(id, "thrust washer",
           "bore = \"40 mm\"\noutside = \"" + in_mm_text(outside_m_) + "\"\nthickness = \"" +
               thickness.text + "\"\n");
      in(id, "case", seat, top_m, "joint = { kind = \"slides\", to = \"CASE\" }\n");
      top_m += thickness.m;
      seat = id;
    }
    drawn_.over = dice_.coin();
    step("drum in", "bring", "case",
         std::string("part = \"DRUM\"\nbrings = \"bench\"\n") +
             (drawn_.over ? "way_up = \"turned over\"\n" : "") + "seat = \"" + seat +
             "\"\njoint = { kind = \"turns\" }\n");
    drawn_.rests_m["drum in"] = top_m;
    drawn_.play_m = dice_.length(0.2, 1.5).m;
    const Written ring_m = dice_.length(1.5, 2.5);
    const double load_m = top_m + height_m_ + drawn_.play_m + ring_m.m;
    part("CASE", "turned part",
         section(20 * mm, bore_m + 20 * mm, 0, case_floor_m) +
             section(bore_m, bore_m + 20 * mm, case_floor_m, load_m + 6 * mm) +
             groove(bore_m, load_m - ring_m.m - 0.1 * mm, load_m));
    ring("STOP", bore_m, ring_m);
    step("stop in", "place", "case",
         "part = \"STOP\"\ngroove = \"CASE/ring\"\njoint = { kind = \"retained\", to = \"CASE\" "
         "}\n");
    drawn_.unit += "[[play]]\nid = \"drum\"\nname = \"drum\"\nmoving = [\"DRUM\"]\nafter = \"stop "
                   "in\"\nlimits = [\"0.05 mm\", \"3 mm\"]\n";
  }

  Dice dice_;
  Drawn drawn_;
  double floor_m_ = 0;
  double piston_m_ = 0;
  double land_m_ = 0;
  double outside_m_ = 0;
  double height_m_ = 0;
  int plates_ = 0;
};

/// A folder of its own, gone at the end.
class Folder {
public:
  Folder() {
    std::random_device random;
    path_ = fs::temp_directory_path() / ("lugline-drawn-" + std::to_string(random()));
    fs::create_directories(path_);
  }
  ~Folder() { fs::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] const fs::path& path() const { return path_; }
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name) << text;
  }

private:
  fs::path path_;
};

std::shared_ptr<const Unit> loaded(const Folder& folder, const Drawn& drawn) {
  folder.write("recipes.toml", drawn.recipes);
  folder.write("unit.toml", drawn.unit);
  folder.write("sequence.toml", drawn.sequence);
  const MakeReport made = make_models(folder.path() / "recipes.toml", folder.path() / "parts");
  for (const Complaint& complaint : made.complaints) {
    UNSCOPED_INFO(text_of(complaint));
  }
  REQUIRE(made.complaints.empty());
  LoadReport report = load_unit(folder.path());
  for (const Complaint& complaint : report.complaints) {
    UNSCOPED_INFO(text_of(complaint));
  }
  REQUIRE(report.unit != nullptr);
  return report.unit;
}

void check_heights(const CheckReport& report, const Drawn& drawn) {
  std::size_t found = 0;
  for (const JudgedStep& step : report.steps) {
    const auto wanted = drawn.rests_m.find(step.id);
    if (wanted != drawn.rests_m.end()) {
      INFO(step.id);
      REQUIRE(step.rest_m.has_value());
      CHECK(*step.rest_m == Approx(wanted->second).margin(1e-8));
      ++found;
    }
  }
  CHECK(found == drawn.rests_m.size());
  REQUIRE(report.packs.size() == 1);
  CHECK(report.packs.front().report.clearance_m == Approx(drawn.clearance_m).margin(1e-8));
  REQUIRE(report.plays.size() == 1);
  REQUIRE(report.plays.front().play_m.has_value());
  CHECK(*report.plays.front().play_m == Approx(drawn.play_m).margin(1e-8));
}

} // namespace

TEST_CASE("twenty units drawn by lot stand as high as they were drawn") {
  int over = 0;
  for (unsigned seed = 1; seed <= 20; ++seed) {
    CAPTURE(seed);
    const Drawn drawn = Draughtsman(seed).draw();
    const Folder folder;
    const auto unit = loaded(folder, drawn);
    Workshop workshop(*unit, {});
    const CheckReport report = judge(workshop, simulate(workshop));
    for (const Complaint& complaint : report.complaints) {
      UNSCOPED_INFO(text_of(complaint));
    }
    CHECK(report.sound);
    check_heights(report, drawn);
    over += drawn.over ? 1 : 0;
  }
  CHECK(over > 3);
  CHECK(over < 17);
}
