#include "scene/quantity/units.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>
#include <string>

using namespace lugline;

TEST_CASE("every unit is found by its own name, and no name is taken twice") {
  std::set<std::string_view> names;
  for (const UnitOfMeasure& unit : all_units()) {
    INFO(unit.name);
    CHECK(names.insert(unit.name).second);
    CHECK(find_unit(unit.name) == &unit);
  }
}

TEST_CASE("both parts of every factor are whole or irrational, never already rounded") {
  for (const UnitOfMeasure& unit : all_units()) {
    INFO(unit.name);
    const bool turns =
        unit.dimension == Dimension::angle || unit.dimension == Dimension::speed_of_turn;
    CHECK((turns || unit.times == std::floor(unit.times)));
    CHECK(unit.over == std::floor(unit.over));
    CHECK(unit.over > 0);
  }
}

TEST_CASE("units that are products agree with their factors") {
  const auto one = [](std::string_view name) { return find_unit(name)->to_si(1); };
  CHECK(one("lbf ft") == Approx(one("lbf") * one("ft")).epsilon(1e-15));
  CHECK(one("lbf in") == Approx(one("lbf") * one("in")).epsilon(1e-15));
  CHECK(one("lbf/in") == Approx(one("lbf") / one("in")).epsilon(1e-15));
  CHECK(one("psi") == Approx(one("lbf") / (one("in") * one("in"))).epsilon(1e-15));
  CHECK(one("kgf m") == one("kgf"));
  CHECK(one("kgf/cm2") == Approx(one("kgf") / (one("cm") * one("cm"))).epsilon(1e-15));
  CHECK(one("kN m") == one("kN"));
  CHECK(one("in3") == Approx(one("in") * one("in") * one("in")).epsilon(1e-15));
  CHECK(one("mL") == Approx(one("cm") * one("cm") * one("cm")).epsilon(1e-15));
  CHECK(one("L") == Approx(1000 * one("mL")).epsilon(1e-15));
  CHECK(one("lb/ft3") == Approx(one("lb") / (one("ft") * one("ft") * one("ft"))).epsilon(1e-15));
  CHECK(one("kg/L") == one("g/cm3"));
  CHECK(one("lbf") == Approx(one("lb") * 9.80665).epsilon(1e-15));
  CHECK(one("oz") == one("lb") / 16);
  CHECK(one("ft") == Approx(12 * one("in")).epsilon(1e-15));
  CHECK(one("in") == Approx(1000 * one("thou")).epsilon(1e-15));
}

TEST_CASE("a unit that is not known is not found") {
  for (const char* name :
       {"", " ", "MM", "Mm", "mM", "PSI", "kpa", "lbs", "furlong", "mm2", "m m"}) {
    INFO(name);
    CHECK(find_unit(name) == nullptr);
  }
}

TEST_CASE("no hint offers something that is not a unit") {
  for (const char* name : {"MM", "inches", "PSI", "kg/cm2", "RPM", "lbs", "dgeC", "N/mn"})
    for (const Dimension dimension :
         {Dimension::length, Dimension::force, Dimension::pressure, Dimension::temperature}) {
      const std::string hint = unit_hint(name, dimension);
      INFO(name << ": " << hint);
      if (hint.empty())
        continue;
      REQUIRE(hint.rfind("write \"", 0) == 0);
      CHECK(find_unit(hint.substr(7, hint.size() - 8)) != nullptr);
    }
}
