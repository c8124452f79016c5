#pragma once
// Names of figures for a person, from the study's own list. Inside the module only.

#include <map>
#include <string>
#include <vector>

#include "geometry/survey.hpp"
#include "study/study.hpp"

namespace portwright::desk {

/// Names by id: "port.exhaust.opens" is "Exhaust opens".
[[nodiscard]] std::map<std::string, std::string> labels_of(const geometry::Survey& survey, double speed);

/// What a cut list is called on a picture: "cut 1", "cuts 1 to 5"; empty without cuts.
[[nodiscard]] std::string plan_name(std::size_t cuts);

/// Fills the label of every figure.
template <class Figure>
void fill_labels(std::vector<Figure>& figures, const std::map<std::string, std::string>& labels) {
  for (Figure& figure : figures) {
    const auto found = labels.find(figure.id);
    figure.label = found == labels.end() ? figure.id : found->second;
  }
}

/// Fills the texts of every figure's range, stock and change.
inline void fill_all_texts(std::vector<study::Figure>& figures, base::UnitStyle style) {
  for (study::Figure& figure : figures) study::fill_texts(figure, style);
}

}  // namespace portwright::desk
