// The commands as a person or a script runs them.

#include "tests/cli/process.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>

using namespace lugline::test;

TEST_CASE("check finds the demo sound, in words and as JSON") {
  const Run words = run_lugline({"check", demo_path()});
  CHECK(words.status == 0);
  CHECK(words.err.empty());
  CHECK(words.out.find("Sound: every step reaches its seat") != std::string::npos);
  CHECK(words.out.find("invented practice data") != std::string::npos);

  const Run run = run_lugline({"check", demo_path(), "--json"});
  CHECK(run.status == 0);
  const auto document = document_of(run);
  CHECK(document["sound"] == true);
  CHECK(document["complaints"].empty());
  CHECK(document["questions"].empty());
  CHECK(document["steps"].size() > 50);
  for (const auto& step : document["steps"]) {
    for (const char* field : {"id", "part", "rest_mm", "stands_on", "stand_off_mm", "poses"}) {
      CHECK(step.contains(field));
    }
  }
  REQUIRE(document["packs"].size() == 3);
  for (const auto& pack : document["packs"]) {
    for (const char* field : {"id", "stack_mm", "clearance_mm", "low_mm", "high_mm", "verdict"}) {
      CHECK(pack.contains(field));
    }
  }
  CHECK(run_lugline({"check", demo_path(), "--json"}).out == run.out);
}

TEST_CASE("check tells what is left of each chain, its working, and what could be fitted") {
  const Run words = run_lugline({"check", demo_path()});
  CHECK(words.out.find("Lower servo travel: 3.80 mm, limits 3.00 mm to 4.50 mm, inside limits") !=
        std::string::npos);
  CHECK(words.out.find("piston to lever, band snug 74.80 mm, less lower servo pin 71.00 mm") !=
        std::string::npos);
  CHECK(words.out.find("nearest the middle") == std::string::npos); // as fitted is nearest

  const auto document = document_of(run_lugline({"check", demo_path(), "--json"}));
  REQUIRE(document["chains"].size() == 4);
  const auto& travel = document["chains"][3];
  CHECK(travel["id"] == "lower servo travel");
  CHECK(travel["value_mm"] == 3.8);
  CHECK(travel["low_mm"] == 3.0);
  CHECK(travel["high_mm"] == 4.5);
  CHECK(travel["verdict"] == "inside limits");
  CHECK(travel["gap"]["length_mm"] == 74.8);
  CHECK(travel["lines"][0]["id"] == "LS-PIN");
  REQUIRE(travel["choices"].size() == 4);
  CHECK(travel["choices"][0]["thickness_mm"][0] == 71.0);
  CHECK(travel["choices"][0]["value_mm"] == 3.8);
  CHECK(travel["choices"][0]["changed"] == 0);
}

TEST_CASE("a servo pin that leaves too much travel: check says so, and which one to fit") {
  const TempFolder folder;
  const std::string unit =
      folder.demo_with("unit.toml", "thickness = \"58.5 mm\"", "thickness = \"57.5 mm\"");
  const Run words = run_lugline({"check", unit});
  CHECK(words.status == 1);
  CHECK(words.out.find("nearest the middle: US-PIN 58.50 mm gives 2.50 mm") != std::string::npos);
  const auto document = document_of(run_lugline({"check", unit, "--json"}));
  CHECK(document["chains"][2]["verdict"] == "too much");
  CHECK(document["chains"][2]["choices"][0]["thickness_mm"][0] == 58.5);
}

TEST_CASE("a plate a millimetre thicker: check says which step fails and why") {
  const TempFolder folder;
  const std::string unit = folder.demo_with("unit.toml", "\"5.0 mm\"", "\"6.0 mm\"");
  const Run run = run_lugline({"check", unit, "--json"});
  CHECK(run.status == 1);
  const auto document = document_of(run);
  CHECK(document["sound"] == false);
  REQUIRE_FALSE(document["complaints"].empty());
  const auto& first = document["complaints"][0];
  CHECK(first["file"] == "sequence.toml");
  CHECK(first["line"] > 0);
  // 0.90 of clearance less 1.00 leaves the ring 0.10 short of its groove.
  const std::string message = first["message"];
  INFO(message);
  CHECK(message.find("case clutch ring") != std::string::npos);
  CHECK(message.find("0.10 mm too high") != std::string::npos);
}

TEST_CASE("drop tells the backing plate's one pose, and that only the clearance or the eye tells") {
  const Run run = run_lugline({"drop", demo_path(), "--part", "CC-BP", "--json"});
  CHECK(run.status == 0);
  const auto document = document_of(run);
  CHECK(document["seated"] == true);
  CHECK(document["rest_mm"] == Approx(156.2));
  int right = 0;
  int over = 0;
  for (const auto& pose : document["poses"]) {
    const double width = pose["to_deg"].get<double>() - pose["from_deg"].get<double>();
    CHECK(width == Approx(0.352).margin(0.0006));
    (pose["way_up"] == "right way up" ? right : over) += 1;
  }
  CHECK(right == 1);
  CHECK(over == 1);
  CHECK(document["clearance_mm"] == Approx(0.90));
  CHECK(document["clearance_turned_over_mm"] == Approx(0.30));

  const Run flipped = run_lugline({"drop", demo_path(), "--part", "CC-BP", "--flip"});
  CHECK(flipped.status == 0);
  CHECK(flipped.out.find("0.30 mm turned over") != std::string::npos);
}

TEST_CASE("drop names the plate that is off and its stand-off, free and under weight") {
  const double expected_mm[] = {1.70, 4.80, 7.90, 11.00};
  for (int i = 0; i < 4; ++i) {
    const std::string plate = "CC-F" + std::to_string(i + 1);
    const auto document = document_of(
        run_lugline({"drop", demo_path(), "--part", "MC-DRUM", "--off", plate, "--json"}));
    INFO(plate);
    CHECK(document["stand_off_mm"] == Approx(expected_mm[i]));
    CHECK(document["stands_on"] == plate);
    CHECK(document["seated"] == false);
    CHECK(document["under_weight_mm"] < document["stand_off_mm"]);
  }
}

TEST_CASE("drop answers for the upper drum, whose hubs hang loose in it") {
  const auto home = document_of(run_lugline({"drop", demo_path(), "--part", "UC-DRUM", "--json"}));
  CHECK(home["seated"] == true);
  CHECK(home["rest_mm"] == Approx(274.5));
  CHECK(home["stands_on"] == "MC-DRUM");
  // 190.20 less 187.00, then 4.20 for each further friction.
  const double expected_mm[] = {3.20, 7.40, 11.60, 15.80};
  for (int i = 0; i < 4; ++i) {
    const std::string plate = "MC-F" + std::to_string(i + 1);
    const auto document = document_of(
        run_lugline({"drop", demo_path(), "--part", "UC-DRUM", "--off", plate, "--json"}));
    INFO(plate);
    CHECK(document["stand_off_mm"] == Approx(expected_mm[i]));
    CHECK(document["stands_on"] == plate);
    CHECK(document["engaged"].size() == static_cast<std::size_t>(3 - i));
  }
  // The shaft's spline at 262.00 less the hub's rear end at 208.60.
  const auto shaft = document_of(
      run_lugline({"drop", demo_path(), "--part", "UC-DRUM", "--off", "RT-MS", "--json"}));
  CHECK(shaft["stand_off_mm"] == Approx(53.40));
  CHECK(shaft["stands_on"] == "RT-MS");
  const Run words = run_lugline({"drop", demo_path(), "--part", "UC-DRUM", "--reading", "-1.6 mm"});
  CHECK(words.out.find("tells T10 washer, T9 washer and T7 washer apart") != std::string::npos);
}

TEST_CASE("a measured stand-off is explained two ways") {
  const auto document = document_of(
      run_lugline({"drop", demo_path(), "--part", "MC-DRUM", "--reading", "1.65 mm", "--json"}));
  std::vector<std::string> fitting;
  for (const auto& cause : document["causes"]) {
    if (cause["fits"] == true) {
      fitting.push_back(cause["part"]);
    }
  }
  std::sort(fitting.begin(), fitting.end());
  CHECK(fitting == std::vector<std::string>{"CC-F1", "CS-T6"});
}

TEST_CASE("a drop is asked of what stands there before the step that is named") {
  const auto told = [](const std::vector<std::string>& arguments, const std::string& words) {
    const Run run = run_lugline(arguments);
    INFO(run.err << run.out);
    CHECK(run.status == 2);
    CHECK(run.err.find(words) != std::string::npos);
    CHECK(run.out.empty());
  };
  const std::string demo = demo_path();
  told({"drop", demo, "--part", "CC-S1", "--before", "case air"}, "CC-S1 is in already");
  told({"drop", demo, "--part", "CC-S1", "--before", "case stands"}, "nothing is in for CC-S1");
  told({"drop", demo, "--part", "MC-DRUM", "--off", "CC-S1"}, "not free to turn");
  told({"drop", demo, "--part", "MC-DRUM", "--off", "OW-RET"}, "not free to turn");
  told({"drop", demo, "--part", "CC-BP", "--turn", "1e300 deg"}, "beyond 100 turns");
  told({"drop", demo, "--part", "MC-DRUM", "--reading", "1e300 mm"}, "beyond 10 m");
  // The refit, into the drum that is in the case by then.
  const auto refit = document_of(run_lugline(
      {"drop", demo, "--part", "MC-BP", "--before", "middle backing plate back", "--json"}));
  CHECK(refit["seated"] == true);
  CHECK(refit["rest_mm"] == Approx(202.8));
  // A whole turn more is the same angle.
  const auto more =
      document_of(run_lugline({"drop", demo, "--part", "CC-BP", "--turn", "756 deg", "--json"}));
  CHECK(more["turn_deg"] == Approx(36));
  const auto once =
      document_of(run_lugline({"drop", demo, "--part", "CC-BP", "--turn", "36 deg", "--json"}));
  CHECK(more == once);
}

TEST_CASE("what the other way up would do is told at its best angle") {
  // Asked at 36 deg both ways up stand on the lands; each has its pose all the same.
  const Run run = run_lugline({"drop", demo_path(), "--part", "MC-DRUM", "--turn", "10 deg"});
  CHECK(run.out.find("turned over: not seated, 141.60 mm proud at best") != std::string::npos);
}

TEST_CASE("a reading that nothing explains is answered too") {
  const Run run = run_lugline({"drop", demo_path(), "--part", "RT-WR", "--reading", "1 mm"});
  CHECK(run.status == 0);
  CHECK(run.out.find("nothing likely gives a stand-off here") != std::string::npos);
  const auto document = document_of(
      run_lugline({"drop", demo_path(), "--part", "RT-WR", "--reading", "1 mm", "--json"}));
  CHECK(document["causes"].empty());
  CHECK(document.contains("causes"));
}

TEST_CASE("a plate read at three places counts at their mean, with what they leave in doubt") {
  const TempFolder folder;
  folder.write("read.csv", "CC-S1,1.48 mm,1.50 mm,1.46 mm,micrometer\n");
  const auto document = document_of(run_lugline(
      {"pack", demo_path(), "--pack", "CC", "--measured", folder.path() / "read.csv", "--json"}));
  const auto& pack = document.at("packs").at(0);
  CHECK(pack.at("clearance_mm").get<double>() == Approx(0.92)); // 0.90 + 1.50 - 1.48
  // Half the spread, and half of the micrometer's step.
  CHECK(pack.at("uncertainty_mm").at("worst_case_mm").get<double>() == Approx(0.02 + 0.005));
}

TEST_CASE("pack shows the working, takes measured figures and ranks what to fit") {
  const Run run = run_lugline({"pack", demo_path(), "--pack", "CC"});
  CHECK(run.status == 0);
  CHECK(run.out.find("less its step") != std::string::npos);
  CHECK(run.out.find("wave plate flat") != std::string::npos);

  const TempFolder folder;
  folder.write("read.csv", "# micrometer, three places\nCC-S1, 1.40 mm +/- 0.01 mm\n"
                           "CC-F1,0.059 in\n");
  const std::string file = folder.path() / "read.csv";
  const auto document =
      document_of(run_lugline({"pack", demo_path(), "--pack", "CC", "--measured", file, "--json"}));
  const auto& pack = document["packs"][0];
  // 0.90 + (1.50 - 1.40) + (1.60 - 0.059 x 25.4)
  CHECK(pack["clearance_mm"] == Approx(0.90 + 0.10 + (1.60 - 1.4986)).margin(1e-4));
  CHECK(pack["choices"].size() == 4);
  CHECK(pack["uncertainty_mm"]["worst_case_mm"] == Approx(0.01));

  folder.write("bad.csv", "CC-S1,1.40\nCC-SS1,1.4 mm\nnothing here\n");
  const Run bad = run_lugline({"pack", demo_path(), "--measured", folder.path() / "bad.csv"});
  CHECK(bad.status == 1);
  CHECK(bad.err.find("bad.csv:1:") != std::string::npos);
  CHECK(bad.err.find("bad.csv:2:") != std::string::npos);
  CHECK(bad.err.find("bad.csv:3:") != std::string::npos);
  CHECK(bad.err.find("CC-S1") != std::string::npos);
}

TEST_CASE("what the command line is not is said, with status 2") {
  CHECK(run_lugline({}).status == 2);
  CHECK(run_lugline({"chekc", "x", "y"}).status == 2);
  CHECK(run_lugline({"check"}).status == 2);
  CHECK(run_lugline({"check", demo_path(), "--jsn"}).status == 2);
  const Run slip = run_lugline({"drop", demo_path(), "--part", "CC-BPP"});
  CHECK(slip.status == 2);
  CHECK(slip.err.find("did you mean CC-BP") != std::string::npos);
  CHECK(run_lugline({"drop", demo_path(), "--part", "CC-BP", "--turn", "36"}).status == 2);
  CHECK(run_lugline({"drop", demo_path(), "--part", "CC-BP", "--off", "NOPE"}).status == 2);
  CHECK(run_lugline({"drop", demo_path(), "--part", "CC-BP", "--before", "nope"}).status == 2);
  CHECK(run_lugline({"pack", demo_path(), "--pack", "CX"}).status == 2);
  for (const char* size :
       {"x", "0x0", "1366", "1366x", "x768", "-5x9", "1366x768x3", "99999999999x1", "1e3x1e3",
        "1366X768", "640x480px", "8193x8193", "nan"}) {
    const Run run =
        run_lugline({"draw", demo_path(), "-o", "/no/such/folder/x.png", "--size", size});
    INFO(size);
    CHECK(run.status == 2);
    CHECK(run.err.find("expected WIDTHxHEIGHT") != std::string::npos);
  }
  for (const char* option : {"--moment", "--explode", "--scale"}) {
    for (const char* figure : {"nan", "-nan", "inf", "-1", "3", "x", ""}) {
      const Run run =
          run_lugline({"draw", demo_path(), "-o", "/no/such/folder/x.png", option, figure});
      INFO(option << " " << figure);
      CHECK(run.status == 2);
      CHECK(run.err.find(option) != std::string::npos);
    }
  }
  for (const char* option : {"--part", "--before", "--turn", "--reading"}) {
    CHECK(run_lugline({"drop", demo_path(), "--part", "CC-BP", option, ""}).status == 2);
  }
  CHECK(run_lugline({"pack", demo_path(), "--measured", ""}).status == 2);
  CHECK(run_lugline({"pack", demo_path(), "--pack", ""}).status == 2);
  const Run help = run_lugline({"--help"});
  CHECK(help.status == 0);
  for (const char* command : {"check", "drop", "pack", "make", "draw", "animate", "film"}) {
    CHECK(help.out.find(command) != std::string::npos);
    CHECK(run_lugline({command, "--help"}).status == 0);
  }
}

TEST_CASE("the program needs no OpenGL library to start") {
  // What draws opens OpenGL only when it draws: nothing that the loader wants
  // at the start is an OpenGL or EGL library.
  const TempFolder folder;
  const std::string list = folder.path() / "needed";
  const std::string command = std::string("ldd ") + LUGLINE_PROGRAM + " > " + list;
  if (std::system(command.c_str()) != 0) {
    WARN("ldd is not installed: not checked");
    return;
  }
  std::ifstream in(list);
  std::string line;
  int lines = 0;
  while (std::getline(in, line)) {
    ++lines;
    INFO(line);
    CHECK(line.find("libGL") == std::string::npos);
    CHECK(line.find("libEGL") == std::string::npos);
    CHECK(line.find("libOpenGL") == std::string::npos);
  }
  CHECK(lines > 3);
}

TEST_CASE("pack explains a reading by the other ways, and says what it is warm") {
  const Run run = run_lugline({"pack", demo_path(), "--pack", "CC", "--reading", "feeler 0.60 mm",
                               "--temperature", "90 degC"});
  CHECK(run.status == 0);
  CHECK(run.out.find("Just that would come of the ring on the other side") != std::string::npos);
  CHECK(run.out.find("Case clutch at 90.0 degC") != std::string::npos);
  const auto document =
      document_of(run_lugline({"pack", demo_path(), "--pack", "CC", "--working", "--json"}));
  CHECK(document["packs"][0]["reports"].size() >= 4);
  CHECK(run_lugline({"pack", demo_path(), "--reading", "feeler 0.40 mm"}).status == 2);
  CHECK(run_lugline({"pack", demo_path(), "--pack", "CC", "--reading", "ruler 1 mm"}).status == 2);
  CHECK(run_lugline({"pack", demo_path(), "--temperature", "90 mm"}).status == 2);
}
