#include "desk/labels.hpp"

#include <algorithm>
#include <cctype>

#include "study/figures.hpp"

namespace portwright::desk {

std::map<std::string, std::string> labels_of(const geometry::Survey& survey, double speed) {
  std::map<std::string, std::string> labels;
  for (const study::Entry& entry : study::entries(survey)) {
    std::string name = entry.name;
    std::replace(name.begin(), name.end(), '_', ' ');
    std::string label = study::filled(entry.row->label, name, speed);
    if (!label.empty()) label[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(label[0])));
    labels[entry.id] = std::move(label);
  }
  return labels;
}

std::string plan_name(std::size_t cuts) {
  if (cuts == 0) return {};
  return cuts == 1 ? "cut 1" : "cuts 1 to " + std::to_string(cuts);
}

}  // namespace portwright::desk
