// A sitting at the demo unit: what is done is on disk at once, and found again.
#include "viewer/app/sitting.h"

#include "viewer/app/picture_file.h"
#include "viewer/app/places.h"
#include "viewer/app/settings_file.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <stdlib.h>

using namespace lugline;

namespace {

const std::filesystem::path demo = LUGLINE_ROOT "/assets-demo/hobspindle-three";

class Folder {
public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "lugline-sitting-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::filesystem::path operator/(const char* name) const { return path_ / name; }

private:
  std::filesystem::path path_;
};

Settings still() {
  Settings settings;
  settings.motion = false;
  return settings;
}

std::unique_ptr<Sitting> sit_down(const std::filesystem::path& log) {
  auto sitting = std::make_unique<Sitting>(log, still(), [] { return std::string("then"); });
  sitting->opened(open_unit(demo));
  REQUIRE(sitting->stage() != nullptr);
  return sitting;
}

/// A plate that some pack of the demo has.
std::string a_plate(const Sitting& sitting) {
  return sitting.stage()->unit().packs.at(0).plates.at(1);
}

double clearance_m(const Sitting& sitting) {
  return sitting.stage()->check().packs.at(0).report.clearance_m;
}

} // namespace

TEST_CASE("each step taken is on disk before the next") {
  const Folder folder;
  const auto sitting = sit_down(folder / "log.jsonl");
  std::size_t before = 0;
  for (int i = 0; i < 8; ++i) {
    sitting->apply(wish::GoOn{});
    const LogReport log = read_log(folder / "log.jsonl");
    CHECK(log.actions.size() == sitting->state().actions.size());
    CHECK(log.actions.size() > before);
    CHECK(log.actions.back().when == "then");
    before = log.actions.size();
  }
}

TEST_CASE("opening again returns to where one was, with the figures that were read") {
  const Folder folder;
  std::size_t step = 0;
  double moment = 0;
  double clearance = 0;
  double nominal = 0;
  {
    const auto sitting = sit_down(folder / "log.jsonl");
    nominal = clearance_m(*sitting);
    for (int i = 0; i < 5; ++i) {
      sitting->apply(wish::GoOn{});
    }
    const std::string plate = a_plate(*sitting);
    for (const char* text : {"1", "1.", "1.4", "1.44"}) {
      sitting->apply(wish::Type{plate, text});
    }
    step = sitting->state().view.step;
    moment = sitting->state().view.moment;
    clearance = clearance_m(*sitting);
    CHECK(clearance != Approx(nominal).margin(1e-7));
  }
  const auto again = sit_down(folder / "log.jsonl");
  CHECK(again->state().view.step == step);
  CHECK(again->state().view.moment == moment);
  CHECK(clearance_m(*again) == Approx(clearance));
  again->apply(wish::Undo{});
  CHECK(clearance_m(*again) == Approx(nominal));
}

TEST_CASE("a line that a power failure cut short is told, and all before it is kept") {
  const Folder folder;
  {
    const auto sitting = sit_down(folder / "log.jsonl");
    for (int i = 0; i < 4; ++i) {
      sitting->apply(wish::GoOn{});
    }
  }
  const std::size_t whole = read_log(folder / "log.jsonl").actions.size();
  std::ofstream(folder / "log.jsonl", std::ios::app) << "{\"schema\":1,\"action\":\"stand";
  const auto again = sit_down(folder / "log.jsonl");
  CHECK(again->state().actions.size() == whole);
  REQUIRE(again->notes().size() == 1);
  CHECK(again->notes()[0].wrong);
  again->apply(wish::GoOn{});
  CHECK(read_log(folder / "log.jsonl").actions.size() == whole + 1);
  CHECK(again->notes().empty());
}

TEST_CASE("a log that cannot be written is told, and the work goes on") {
  const Folder folder;
  std::ofstream(folder / "file") << "no folder";
  const auto sitting = sit_down((folder / "file") / "log.jsonl");
  sitting->apply(wish::GoOn{});
  CHECK(sitting->state().view.moment == 1);
  CHECK_FALSE(sitting->kept());
  REQUIRE_FALSE(sitting->notes().empty());
  CHECK(sitting->notes()[0].wrong);
  CHECK(sitting->notes()[0].words.find("log.jsonl") != std::string::npos);
}

TEST_CASE("what could not be kept is kept as soon as it can be") {
  const Folder folder;
  std::ofstream(folder / "logs") << "in the way";
  const auto sitting = sit_down((folder / "logs") / "log.jsonl");
  sitting->apply(wish::GoOn{});
  sitting->apply(wish::GoOn{});
  const std::size_t done = sitting->state().actions.size();
  std::filesystem::remove(folder / "logs");
  sitting->apply(wish::GoOn{});
  CHECK(sitting->kept());
  CHECK(read_log((folder / "logs") / "log.jsonl").actions.size() == done + 1);
}

TEST_CASE("a unit that does not load shows its complaints, and can be tried again") {
  const Folder folder;
  Sitting sitting(folder / "log.jsonl", still(), [] { return std::string(); });
  sitting.opened(open_unit(folder / "nothing"));
  CHECK(sitting.stage() == nullptr);
  CHECK_FALSE(sitting.complaints().empty());
  CHECK(sitting.state().panel == PanelKind::faults);
  sitting.apply(wish::GoOn{});
  sitting.apply(wish::TryAgain{});
  CHECK(sitting.take_errands() == std::vector<Errand>{Errand::try_again});
  CHECK(sitting.take_errands().empty());
  sitting.opened(open_unit(demo));
  CHECK(sitting.stage() != nullptr);
  CHECK(sitting.complaints().empty());
  CHECK(sitting.state().panel == PanelKind::none);
}

TEST_CASE("a unit that no longer loads leaves the one that is open alone") {
  const Folder folder;
  const auto sitting = sit_down(folder / "log.jsonl");
  sitting->apply(wish::GoOn{});
  sitting->opened(open_unit(folder / "nothing"));
  CHECK(sitting->stage() != nullptr);
  CHECK(sitting->state().panel == PanelKind::faults);
  CHECK(sitting->state().actions.size() == 1);
  sitting->opened(open_unit(demo));
  CHECK(sitting->state().view.moment == 1);
  CHECK(read_log(folder / "log.jsonl").actions.size() == 1);
}

TEST_CASE("a message stays while one looks round and goes with the next step") {
  const Folder folder;
  const auto sitting = sit_down(folder / "log.jsonl");
  sitting->tell({"Saved as picture.png.", false});
  sitting->apply(wish::LookRound{0.1, 0});
  CHECK(sitting->notes().size() == 1);
  sitting->apply(wish::GoOn{});
  CHECK(sitting->notes().empty());
}

TEST_CASE("settings are written and read back, and nonsense keeps what is usual") {
  const Folder folder;
  Settings settings;
  settings.unit = LengthUnit::inch;
  settings.scale = 1.75;
  settings.motion = false;
  settings.cut = false;
  settings.print_look = true;
  settings.hidden_edges = true;
  settings.see_through = SeeThrough::always;
  REQUIRE(write_settings(folder / "settings.json", settings));
  CHECK(text_of(read_settings(folder / "settings.json")) == text_of(settings));
  CHECK(read_settings(folder / "settings.json").see_through == SeeThrough::always);
  CHECK(read_settings(folder / "settings.json").hidden_edges);
  CHECK(text_of(read_settings(folder / "none.json")) == text_of(Settings()));
  CHECK(text_of(settings_from("[1, 2")) == text_of(Settings()));
  CHECK(settings_from("{\"scale\": 1e9}").scale == Approx(2.5));
  CHECK(settings_from("{\"scale\": \"big\", \"cut\": 3}").scale == Approx(1));
  std::ofstream(folder / "file") << "x";
  CHECK_FALSE(write_settings((folder / "file") / "settings.json", settings));
}

TEST_CASE("two folders of one name have logs of their own, and one folder always the same") {
  const Folder folder;
  setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1);
  const auto one = log_place(folder / "a/unit");
  CHECK(one == log_place(folder / "a/unit/"));
  CHECK(one == log_place(folder / "b/../a/unit"));
  CHECK(one != log_place(folder / "b/unit"));
  CHECK(one.filename().string().starts_with("unit-"));
  CHECK(one.filename().string().size() == std::string("unit-01234567.jsonl").size());
  CHECK(one.parent_path() == (folder / "state") / "lugline");
  setenv("XDG_STATE_HOME", "not/absolute", 1);
  setenv("HOME", (folder / "home").c_str(), 1);
  CHECK(log_place(folder / "a/unit").string().starts_with((folder / "home/.local/state").string()));
}

TEST_CASE("a saved picture has a name that no file has, and no strange letters") {
  const Folder folder;
  const auto first = free_picture_file(folder / "", "my unit", 4, "case/../piston");
  CHECK(first.filename() == "my-unit-05-case-..-piston.png");
  std::ofstream(first) << "x";
  CHECK(free_picture_file(folder / "", "my unit", 4, "case/../piston").filename() ==
        "my-unit-05-case-..-piston-2.png");
}
