// Where the pieces are at any moment of a step.

#include "tests/build/demo.h"

#include "scene/build/timeline.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>

using namespace lugline;
using namespace lugline::test;

TEST_CASE("a step ends where the simulation says, and the next begins there") {
  Demo& d = demo();
  for (std::size_t i = 0; i < d.unit->steps.size(); ++i) {
    INFO("step " << d.unit->steps[i].id);
    const Moment end = moment_of(*d.workshop, d.simulation, i, 1);
    const auto& places = d.simulation.after[i].places;
    const auto place = places.find(d.unit->steps[i].place);
    if (place == places.end()) {
      continue;
    }
    std::map<std::string, const PosedPiece*> shown;
    for (const PosedPiece& piece : end.pieces) {
      shown[piece.id] = &piece;
    }
    for (const Fitted& fitted : place->second.fitted) {
      INFO("piece " << fitted.id);
      REQUIRE(shown.contains(fitted.id));
      CHECK(shown[fitted.id]->height_m == Approx(fitted.height_m).margin(1e-9));
      CHECK(shown[fitted.id]->over == fitted.over);
      CHECK(std::remainder(shown[fitted.id]->turn_rad - fitted.turn_rad, 360 * deg) ==
            Approx(0).margin(1e-9));
    }
  }
}

TEST_CASE("what goes in begins above everything that is in, and only falls") {
  Demo& d = demo();
  int falls = 0;
  for (std::size_t i = 0; i < d.unit->steps.size(); ++i) {
    const Moment begin = moment_of(*d.workshop, d.simulation, i, 0);
    if (!d.simulation.outcomes[i].lowered || !begin.moving) {
      continue;
    }
    ++falls;
    INFO("step " << d.unit->steps[i].id);
    double before_m = 1e9;
    for (int k = 0; k <= 50; ++k) {
      const Moment now = moment_of(*d.workshop, d.simulation, i, k / 50.0);
      for (const PosedPiece& piece : now.pieces) {
        if (piece.in_hand && piece.id == d.simulation.outcomes[i].hand->lead) {
          CHECK(piece.height_m <= before_m + 1e-12);
          before_m = piece.height_m;
        }
      }
    }
    for (const PosedPiece& piece : begin.pieces) {
      if (piece.in_hand) {
        CHECK(piece.height_m + d.workshop->shape(piece.id, piece.over).low_m() > begin.mouth_m);
      }
    }
  }
  CHECK(falls > 15);
}
