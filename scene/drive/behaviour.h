// One range under one set of faults, worked out once for each train that it comes down to.
//
// Inside this room only. Owns what it has worked out; one of it for one question, since it grows.
// Of a drive without troubles and faults without.
#pragma once

#include "scene/drive/faults.h"
#include "scene/drive/worked_strength.h"

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace lugline {

class Behaviours {
public:
  Behaviours(const Drive& drive, const ElementPacks& packs) : drive_(drive), packs_(packs) {}

  RangeBehaviour of(const DriveRange& range, const std::vector<Fault>& faults);
  std::vector<RangeBehaviour> of(const std::vector<Fault>& faults);

private:
  using Grips = std::map<std::string, ElementGrip>;

  const TrainAnswer& settled(const AppliedElements& applied, TrainDuty duty);
  RangeBehaviour work(const DriveRange& range, const std::vector<Fault>& faults);
  const WorkedTrain& worked(const AppliedElements& applied, TrainDuty duty);
  ElementGrip sound_grip(const DriveElement& element, double gauge_Pa);
  ElementGrip grip_in(const DriveElement& element, const DriveRange& range, const RangeDuty& duty,
                      const std::vector<Fault>& faults);
  Grips grips_in(const DriveRange& range, const RangeDuty& duty, const std::vector<Fault>& faults);
  AppliedElements applied_with(const DriveRange& range, const std::vector<Fault>& faults);
  bool carries_nothing(const std::string& id, const DriveRange& range,
                       const std::vector<Fault>& faults);
  void judge_pull(const DriveRange& range, const std::vector<Fault>& faults,
                  const AppliedElements& applied, RangeBehaviour& told);
  void judge_coast(const DriveRange& range, const std::vector<Fault>& faults,
                   const AppliedElements& applied, RangeBehaviour& told);
  void judge_slip(const DriveRange& range, const std::vector<Fault>& faults,
                  const AppliedElements& applied, RangeBehaviour& told);

  const Drive& drive_;
  const ElementPacks& packs_;
  std::map<std::pair<std::string, TrainDuty>, TrainAnswer> settled_;
  std::map<std::pair<std::string, TrainDuty>, WorkedTrain> worked_;
  std::map<std::pair<std::string, double>, ElementGrip> grips_;
  std::map<std::string, RangeBehaviour> sound_; ///< by range
};

} // namespace lugline
