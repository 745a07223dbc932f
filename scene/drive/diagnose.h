// Back from what a driver notices and what a gauge reads to what failed.
//
// Every single fault is put into every range (faults.h) and held to what was reported: those that
// explain all of it are ranked, the others are excluded, each with the reason. Only where no single
// fault explains all are pairs tried. Nothing here knows any unit. SI, gauge pressures. What cannot
// be asked (an unknown range, symptoms that contradict each other) is refused with a sentence.
#pragma once

#include "scene/drive/faults.h"

#include <string>
#include <vector>

namespace lugline {

struct DriverSymptom {
  std::string range;
  Notice notice = Notice::slips; ///< as_it_should: the driver says that this range is in order
};

/// At an element, in a range, at the line of that range's first duty.
struct PressureReading {
  std::string element;
  std::string range;
  double gauge_Pa = 0;
};

struct DiagnosisRules {
  // Shares of the line's pressure; common practice, no source.
  double full_share = 0.85; ///< from here on a reading counts as full
  double none_share = 0.05; ///< up to here as none
  /// What wear and leaks may have left: the first of these that explains the symptoms is named.
  std::vector<double> left = {0.75, 0.5, 0.25, 0.1, 0.0};
};

struct FaultFound {
  std::vector<Fault> faults; ///< one, or a pair
  int rank = 1;              ///< alike where nothing tells two apart
  std::string words;         ///< what it is, what it explains, what it would do besides
  std::vector<RangeBehaviour> ranges;
  std::vector<std::string> besides; ///< ranges that it would change, of which nothing is reported
};

struct FaultExcluded {
  Fault fault;
  std::string words; ///< what it is, and which report contradicts it
};

struct Diagnosis {
  bool refused = false;
  std::string words;             ///< one plain sentence
  std::vector<FaultFound> found; ///< the likeliest first
  std::vector<FaultExcluded> excluded;
  std::vector<std::string> notes;
};

Diagnosis diagnose(const Drive& drive, const ElementPacks& packs,
                   const std::vector<DriverSymptom>& symptoms,
                   const std::vector<PressureReading>& readings, const DiagnosisRules& rules = {});

std::vector<std::string> lines_of(const Diagnosis& diagnosis);

} // namespace lugline
