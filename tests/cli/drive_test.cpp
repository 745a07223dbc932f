// lugline drive, as a process: ranges, capacities, what failed, bench air, and bad command lines.
//
// The demo's figures are invented practice data; the room's own tests hold them to its tables.
#include "tests/cli/process.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline::test;

namespace {

using Document = nlohmann::json;

std::string small_unit() {
  return std::string(LUGLINE_ROOT) + "/assets-demo/quernside-two";
}

/// The entry of a list whose "id" is so; fails the test where there is none.
Document with_id(const Document& list, const std::string& id) {
  const auto found =
      std::ranges::find_if(list, [&](const Document& one) { return one["id"] == id; });
  REQUIRE(found != list.end());
  return *found;
}

void refused(const std::vector<std::string>& arguments, const std::string& words) {
  std::vector<std::string> command{"drive"};
  command.insert(command.end(), arguments.begin(), arguments.end());
  const Run run = run_lugline(command);
  INFO(run.out << run.err);
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(run.err.find(words) != std::string::npos);
}

} // namespace

TEST_CASE("drive tells every range of the demo, in words and as JSON") {
  const Run words = run_lugline({"drive", demo_path()});
  INFO(words.out << words.err);
  CHECK(words.status == 0);
  for (const char* said :
       {"D first: Drive, first", "61/25 (2.440)", "Low roller clutch holds", "margin 1.508",
        "Sound: every range does what the unit says of it", "invented practice data"}) {
    INFO(said);
    CHECK(words.out.find(said) != std::string::npos);
  }
  const Run run = run_lugline({"drive", demo_path(), "--json"});
  CHECK(run.status == 0);
  const Document document = document_of(run);
  CHECK(document["sound"] == true);
  CHECK(document["ranges"].size() == 7);
  const Document first = with_id(document["ranges"], "D first");
  CHECK(first["ratio"] == Approx(2.44));
  CHECK(first["ratio_exact"] == "61/25");
  CHECK(first["does"] == "drives");
  CHECK(first["coasting"]["does"] == "neutral");
  CHECK(first["holding"] == Document({"UC", "LRC"}));
  const Document roller = with_id(first["elements"], "LRC");
  CHECK(roller["does"] == "holds");
  CHECK(roller["torque_Nm"] == Approx(518.4));
  CHECK(roller["capacity_Nm"] == Approx(800));
  CHECK(roller["margin"] == Approx(800 / 518.4).epsilon(1e-9));
  CHECK(with_id(first["members"], "sun")["speed_exact"] == "-625/671");
  CHECK(first["duties"][0]["line_pressure_kPa"] == Approx(1100));
  CHECK(with_id(document["ranges"], "N")["does"] == "neutral");
  CHECK(with_id(document["ranges"], "N")["ratio"].is_null());
  CHECK(with_id(document["ranges"], "Reverse")["ratio"] == Approx(-75.0 / 33).epsilon(1e-9));
}

TEST_CASE("drive tells one range with its whole working") {
  const Run words = run_lugline({"drive", demo_path(), "--range", "Reverse", "--losses"});
  INFO(words.out << words.err);
  CHECK(words.status == 0);
  for (const char* said : {"Source: Willis' equation", "piston area", "mean radius, uniform wear",
                           "Losses in the teeth:"}) {
    INFO(said);
    CHECK(words.out.find(said) != std::string::npos);
  }
  CHECK(words.out.find("D first") == std::string::npos);
  const Document document =
      document_of(run_lugline({"drive", demo_path(), "--range", "Reverse", "--losses", "--json"}));
  REQUIRE(document["ranges"].size() == 1);
  const Document& reverse = document["ranges"][0];
  CHECK(reverse["report"]["results"].size() > 5);
  CHECK(with_id(reverse["duties"][0]["elements"], "LB")["report"]["working"].size() > 3);
  CHECK(reverse["losses"]["efficiency"] < 1.0);
  CHECK(reverse["losses"]["efficiency"] > 0.9);
}

TEST_CASE("drive answers in the shop's inch units") {
  const Run run = run_lugline({"drive", small_unit(), "--inch"});
  INFO(run.out << run.err);
  CHECK(run.status == 0);
  CHECK(run.out.find("stall: 180.0 lbf ft at the input, line pressure 120 psi") !=
        std::string::npos);
  CHECK(run.out.find("7/4 (1.750)") != std::string::npos);
}

TEST_CASE("a torque above what an element carries is not sound") {
  const Run run = run_lugline(
      {"drive", demo_path(), "--range", "D first", "--input-torque", "900 N m", "--json"});
  CHECK(run.status == 1);
  const Document document = document_of(run);
  CHECK(document["sound"] == false);
  const Document& range = document["ranges"][0];
  CHECK(range["problems"].size() == 2);
  CHECK(with_id(range["elements"], "UC")["margin"] < 1.0);
  // The roller clutch is asked 1.44 times as much.
  CHECK(with_id(range["elements"], "LRC")["torque_Nm"] == Approx(1296));
  const Run words =
      run_lugline({"drive", demo_path(), "--range", "D first", "--line-pressure", "0.05 MPa"});
  CHECK(words.status == 1);
  CHECK(words.out.find("NOT SOUND: stall: Upper clutch carries 0.000 N m") != std::string::npos);
}

TEST_CASE("drive tells what a range does with an element failed") {
  const auto does = [](const std::vector<std::string>& change, const std::string& range) {
    std::vector<std::string> command{"drive", demo_path(), "--range", range, "--json"};
    command.insert(command.end(), change.begin(), change.end());
    const Run run = run_lugline(command);
    INFO(run.err);
    const Document document = document_of(run);
    CHECK((run.status == 0) == document["sound"].get<bool>());
    return document["ranges"][0];
  };
  CHECK(does({"--without", "UC"}, "D second")["does"] == "neutral");
  CHECK(does({"--without", "LRC"}, "D first")["does"] == "neutral");
  CHECK(does({"--without", "LRC"}, "Manual low")["does"] == "drives");
  CHECK(does({"--stuck", "MC"}, "D second")["ratio"] == Approx(1.0));
  CHECK(does({"--stuck", "UB"}, "D third")["does"] != "drives");
  CHECK(does({"--reversed", "OWC"}, "D second")["ratio"] == Approx(2.44));
  CHECK_FALSE(does({"--reversed", "OWC"}, "D second")["problems"].empty());
}

TEST_CASE("drive tells what a driver would notice with an element failed") {
  const Run run =
      run_lugline({"drive", demo_path(), "--range", "D third", "--reversed", "OWC", "--json"});
  const Document driver = document_of(run)["ranges"][0]["driver"];
  CHECK(driver["notices"] == Document({"locks up"}));
  const Run words = run_lugline({"drive", demo_path(), "--without", "UB"});
  INFO(words.out);
  CHECK(words.out.find("With Upper band not applied, Manual second: no engine braking") !=
        std::string::npos);
  CHECK_FALSE(
      document_of(run_lugline({"drive", demo_path(), "--range", "D third", "--json"}))["ranges"][0]
          .contains("driver"));
}

TEST_CASE("drive tells every likely fault and what each range then does") {
  const Run run = run_lugline({"drive", demo_path(), "--faults", "--json"});
  CHECK(run.status == 0);
  const Document document = document_of(run);
  CHECK(document["refused"].is_null());
  // Four faults of each clutch and band, three of each one-way clutch.
  CHECK(document["faults"].size() == 5 * 4 + 2 * 3);
  const auto notices = [&](const std::string& element, const std::string& kind,
                           const std::string& range) {
    for (const Document& row : document["faults"]) {
      if (row["faults"][0]["element"] == element && row["faults"][0]["kind"] == kind) {
        return with_id(row["ranges"], range)["notices"];
      }
    }
    FAIL("no such fault");
    return Document();
  };
  // The demo data's seeded faults F-LRC and F-OWC, in its words: no first, and tries to bind in
  // second; no second, and binds in third.
  CHECK(notices("LRC", "reversed", "D first") == Document({"no drive"}));
  CHECK(notices("LRC", "reversed", "D second") == Document({"locks up"}));
  CHECK(notices("OWC", "reversed", "D third") == Document({"locks up"}));
  CHECK(notices("OWC", "reversed", "D second").front() == "other ratio");
  CHECK(notices("LB", "not applied", "Manual low") == Document({"no engine braking"}));
  CHECK(notices("LB", "not applied", "D first") == Document({"as it should"}));
  CHECK(notices("UC", "stuck on", "N") == Document({"drives in neutral"}));
  const Run words = run_lugline({"drive", demo_path(), "--faults"});
  CHECK(words.out.find("Low roller clutch reversed\n  D first: no drive") != std::string::npos);
  CHECK(words.out.find("examples to show what such a fault does, not findings") !=
        std::string::npos);
}

TEST_CASE("drive goes from symptoms back to what explains them") {
  const Run run = run_lugline({"drive", demo_path(), "--symptom", "D third: slips", "--symptom",
                               "Reverse: slips", "--json"});
  CHECK(run.status == 0);
  const Document document = document_of(run);
  CHECK(document["refused"] == false);
  // Only the middle clutch works in both.
  REQUIRE_FALSE(document["found"].empty());
  for (const Document& found : document["found"]) {
    for (const Document& fault : found["faults"]) {
      CHECK(fault["element"] == "MC");
    }
  }
  CHECK(document["excluded"].size() > 10);
  const Run words = run_lugline({"drive", demo_path(), "--symptom", "D first: no drive",
                                 "--symptom", "Manual low: as it should"});
  INFO(words.out);
  CHECK(words.status == 0);
  CHECK(words.out.find("Low roller clutch fallen out") != std::string::npos);
  CHECK(words.out.find("Excluded") != std::string::npos);
}

TEST_CASE("a pressure that was read tells a leak from wear") {
  const auto kinds = [](const std::string& reading) {
    const Run run = run_lugline(
        {"drive", demo_path(), "--symptom", "D third: slips", "--reading", reading, "--json"});
    const Document document = document_of(run);
    std::vector<std::string> all;
    for (const Document& found : document["found"]) {
      for (const Document& fault : found["faults"]) {
        all.push_back(fault["element"].get<std::string>() + " " + fault["kind"].get<std::string>());
      }
    }
    return all;
  };
  CHECK(kinds("MC 0.21 MPa") == std::vector<std::string>{"MC leaking"});
  CHECK(kinds("MC in D third 0.21 MPa") == std::vector<std::string>{"MC leaking"});
  const std::vector<std::string> full = kinds("MC in D third 116 psi");
  CHECK(std::ranges::count(full, "MC leaking") == 0);
  CHECK(std::ranges::count(full, "MC worn") == 1);
}

TEST_CASE("what nothing explains is said, with status 1") {
  const Run run = run_lugline({"drive", demo_path(), "--symptom", "N: locks up"});
  INFO(run.out);
  CHECK(run.status == 1);
}

TEST_CASE("drive counts the head of turning fluid when a speed is given") {
  const auto capacity = [](const std::vector<std::string>& more) {
    std::vector<std::string> command{"drive", demo_path(), "--range", "D first", "--json"};
    command.insert(command.end(), more.begin(), more.end());
    const Document document = document_of(run_lugline(command));
    return with_id(document["ranges"][0]["elements"], "UC")["capacity_Nm"].get<double>();
  };
  CHECK(capacity({"--input-speed", "2000 rpm"}) > capacity({}) + 1);
  CHECK(capacity({"--input-speed", "0 rpm"}) == capacity({}));
}

TEST_CASE("drive checks a piston with air, and says what a timed hold tells") {
  const Run run = run_lugline({"drive", demo_path(), "--air", "CC", "--held", "4 s", "--json"});
  const Document document = document_of(run);
  CHECK(run.status == 1); // half of what the unit calls good
  CHECK(document["element"] == "CC");
  REQUIRE(document["reports"].size() == 2);
  CHECK(document["reports"][0]["verdict"] == "good");
  CHECK_FALSE(document["reports"][0]["cautions"].empty());
  CHECK(document["reports"][1]["verdict"] == "bad");
  CHECK(run_lugline({"drive", demo_path(), "--air", "CC", "--held", "9 s"}).status == 0);
  const Run weak = run_lugline({"drive", demo_path(), "--air", "MC", "--pressure", "0.08 MPa"});
  CHECK(weak.status == 1);
  CHECK(weak.out.find("does not overcome the springs") != std::string::npos);
  CHECK(weak.out.find("CAUTION") != std::string::npos);
}

TEST_CASE("air above the unit's limit is refused with the caution") {
  const Run run =
      run_lugline({"drive", demo_path(), "--air", "UC", "--pressure", "60 psi", "--json"});
  CHECK(run.status == 1);
  const Document document = document_of(run);
  CHECK(document["sound"] == false);
  CHECK(document["reports"][0]["verdict"] == "refused");
  CHECK(document["reports"][0]["verdict_words"].get<std::string>().find("above the unit's limit") !=
        std::string::npos);
  CHECK_FALSE(document["reports"][0]["cautions"].empty());
}

TEST_CASE("check finds a range that does not do what the unit says, at its line") {
  const TempFolder folder;
  const std::string unit = folder.demo_with("unit.toml", "on = [\"MC\", \"LB\"]", "on = [\"MC\"]");
  const Run run = run_lugline({"check", unit, "--json"});
  CHECK(run.status == 1);
  const Document document = document_of(run);
  REQUIRE(document["complaints"].size() == 1);
  CHECK(document["complaints"][0]["file"] == "unit.toml");
  CHECK(document["complaints"][0]["line"] > 700);
  CHECK(document["complaints"][0]["message"].get<std::string>().find("does not drive") !=
        std::string::npos);
  CHECK(run_lugline({"drive", unit}).status == 1);
}

TEST_CASE("a unit that states no gear train is told so") {
  const TempFolder folder;
  folder.write("unit.toml", "schema = 1\nname = \"Disc\"\nlabel = \"invented practice data\"\n"
                            "invented = true\n[[component]]\nid = \"D\"\nlabel = \"disc\"\n"
                            "[[component.ring]]\ninner_diameter = \"0 mm\"\n"
                            "outer_diameter = \"50 mm\"\nlow = \"0 mm\"\nhigh = \"5 mm\"\n");
  folder.write("sequence.toml", "schema = 1\n[[place]]\nid = \"bench\"\nname = \"bench\"\n"
                                "base = \"D\"\n[[step]]\nid = \"disc\"\nkind = \"place\"\n"
                                "place = \"bench\"\npart = \"D\"\ndo = \"Lay it down.\"\n");
  const std::string unit = folder.path().string();
  REQUIRE(run_lugline({"check", unit}).status == 0);
  const Run run = run_lugline({"drive", unit, "--json"});
  CHECK(run.status == 1);
  const Document document = document_of(run);
  REQUIRE(document["complaints"].size() == 1);
  CHECK(document["complaints"][0]["message"] == "the unit states no gear train");
  CHECK(run_lugline({"drive", unit}).err.find("no gear train") != std::string::npos);
}

TEST_CASE("drive refuses what is no range, no element and no figure, with status 2") {
  const std::string demo = demo_path();
  refused({demo, "--range", "D frist"}, "did you mean D first?");
  refused({demo, "--without", "UCC"}, "did you mean");
  refused({demo, "--stuck", "XYZ"}, "no element 'XYZ'");
  refused({demo, "--reversed", "UC"}, "only a one-way clutch");
  refused({demo, "--without", "UC", "--stuck", "UC"}, "both");
  refused({demo, "--input-torque", "300"}, "bare number");
  refused({demo, "--input-torque", "300 psi"}, "torque");
  refused({demo, "--input-torque", "1e9 N m"}, "outside what any unit has");
  refused({demo, "--input-torque", "nan N m"}, "--input-torque");
  refused({demo, "--line-pressure", "-1 MPa"}, "outside what any unit has");
  refused({demo, "--input-speed", "fast"}, "--input-speed");
  refused({demo, "--range", ""}, "empty");
  refused({demo, "--air", "LRC"}, "no piston");
  refused({demo, "--air", "QQ"}, "no element 'QQ'");
  refused({demo, "--pressure", "30 psi"}, "for --air");
  refused({demo, "--air", "UC", "--held", "12"}, "bare number");
  refused({demo, "--air", "UC", "--down-to", "10 psi"}, "both or neither");
  refused({demo, "--faults", "--range", "D first"}, "--faults");
  refused({demo, "--faults", "--air", "UC"}, "--faults");
  refused({demo, "--symptom", "D third slips"}, "a range and what it does");
  refused({demo, "--symptom", "D thrid: slips"}, "did you mean D third?");
  refused({demo, "--symptom", "D third: whines"}, "known are as it should, slips");
  refused({demo, "--reading", "XX 0.2 MPa"}, "no element 'XX'");
  refused({demo, "--reading", "MC 0.2"}, "bare number");
  refused({demo, "--reading", "MC in D ninth 0.2 MPa"}, "in which range?");
  refused({demo, "--reading", "LRC 0.2 MPa"}, "name the range");
  refused({demo, "--reading", "MC -0.2 MPa"}, "outside what any unit has");
  refused({demo, "--symptom", "D third: slips", "--faults"}, "one at a time");
  refused({demo, "--symptom", "D third: slips", "--without", "UC"}, "of the whole unit");
  refused({demo, "--nonsense"}, "nonsense");
  refused({}, "UNIT");
}

TEST_CASE("a folder that is no unit is told by drive as by check") {
  const Run run = run_lugline({"drive", "/no/such/unit"});
  CHECK(run.status == 1);
  CHECK(run.out.empty());
  CHECK(run.err.find("no such folder") != std::string::npos);
}
