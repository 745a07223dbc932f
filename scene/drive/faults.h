// What failed: what every range does when an element slips, leaks, hangs or is not applied, or a
// one-way clutch is reversed or has fallen out.
//
// Nothing here knows any unit: each answer is the gear train settled with the fault in it
// (train.h), and the torque at which its weakest element slips (strength.h, element_capacity.h)
// held to what the range's duties ask. SI; pressures are gauge pressures. How an element comes to
// fail, and how late or hard a range takes hold, is not worked out. Plain values; a drive or a
// fault that cannot be worked out is a sentence.
#pragma once

#include "scene/drive/capacity.h"
#include "scene/drive/strength.h"
#include "scene/drive/train.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace lugline {

enum class FaultKind {
  not_applied, ///< clutch or band: nothing of it takes hold where it should
  worn,        ///< clutch or band: it slips earlier than it should
  leaking,     ///< clutch or band: part of its pressure is lost
  stuck_on,    ///< it holds in every range; of a one-way clutch: seized
  reversed,    ///< one-way clutch: it holds the way that it should run free
  fallen_out   ///< one-way clutch: it holds no way
};
/// "not applied", "worn", "leaking", "stuck on", "reversed", "fallen out".
std::string word_for(FaultKind kind);
std::optional<FaultKind> fault_kind_from(const std::string& word);

struct RangePressure {
  std::string range;
  double gauge_Pa = 0; ///< at the element
};

struct Fault {
  FaultKind kind = FaultKind::not_applied;
  std::string element;
  /// worn: the share of its capacity that is left; leaking: of the line's pressure, in ranges where
  /// it was not read.
  double left = 0;
  std::vector<RangePressure> read; ///< leaking: what it gets, where that was read
};

/// What a driver would notice in a range.
enum class Notice {
  as_it_should,
  slips,             ///< it drives, and one of its elements slips at a torque that a duty asks
  no_drive,          ///< it should drive, and does not
  other_ratio,       ///< it drives at a ratio that is not its own
  locks_up,          ///< the input cannot turn
  drives_in_neutral, ///< it should be neutral
  no_engine_braking, ///< it should brake, and overruns or slips
  brakes             ///< it should overrun, and the engine brakes
};
/// "as it should", "slips", "no drive", "other ratio", "locks up", "drives in neutral",
/// "no engine braking", "brakes".
std::string word_for(Notice notice);
std::optional<Notice> notice_from(const std::string& word);
std::vector<std::string> notice_words();

struct RangeBehaviour {
  std::string range;
  std::vector<Notice> notices; ///< as_it_should alone, or all others that apply
  std::string words;           ///< one plain sentence
  TrainState pull = TrainState::refused;
  std::optional<ExactFigure> ratio;
  TrainState coast = TrainState::refused;
  /// Of the duty that asks most of what it carries, pulling: what the input may bring, what is
  /// asked, and what slips first. None: no duty pulls, or nothing is known to limit it.
  std::optional<double> carries_Nm;
  std::optional<double> asked_Nm;
  std::vector<std::string> slipping; ///< element ids; where it is less than asked

  [[nodiscard]] bool shows(Notice notice) const;
};

/// Friction counts and strokes by element id, as scene/build's drive_facts gives them.
using ElementPacks = std::map<std::string, PackFacts>;

/// Every range, with these faults in it; with none, the sound unit.
std::vector<RangeBehaviour> behave(const Drive& drive, const ElementPacks& packs,
                                   const std::vector<Fault>& faults);

struct FaultAssumptions {
  double worn_left = 0.25; ///< share of the capacity; for the table an example, not a finding
  double leak_left = 0.2;  ///< share of the line's pressure, likewise
};

struct FaultRow {
  std::vector<Fault> faults;
  std::string words;                  ///< "Middle clutch worn to 25 % of its capacity"
  std::vector<RangeBehaviour> ranges; ///< in the unit's order
};

struct FaultTable {
  std::string refused; ///< why there is none; else empty
  FaultRow sound;      ///< without a fault
  std::vector<FaultRow> rows;
  std::vector<std::string> notes;
};

FaultTable fault_table(const Drive& drive, const ElementPacks& packs,
                       const FaultAssumptions& assumed = {});
std::vector<std::string> lines_of(const FaultTable& table);

/// "Middle clutch leaks: 0.21 MPa …" without a full stop.
std::string words_of(const Drive& drive, const Fault& fault);
std::string words_of(const Drive& drive, const std::vector<Fault>& faults);

/// Why a fault cannot be: no such element, no such fault of its kind; empty: it can.
std::string fault_trouble(const Drive& drive, const Fault& fault);

} // namespace lugline
