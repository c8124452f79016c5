#pragma once
// Nodes, what heat passes between them, and the places of known temperature they give it to: the whole of conduction
// once it is cut into cells. Knows no engine.

#include <memory>
#include <vector>

#include "base/error.hpp"

namespace portwright::heat {

/// How heat balances over a solution.
struct Balance {
  double in = 0.0, out = 0.0;  ///< from sources and warmer baths; to sinks and cooler baths [W]
  [[nodiscard]] double residual() const { return in > 0.0 ? (in - out) / in : out; }
};

class ThermalNetwork {
 public:
  /// A node that holds `capacity` [J/K]; its number.
  int add(double capacity = 0.0);
  void set_capacity(int node, double capacity) { capacity_[static_cast<std::size_t>(node)] = capacity; }
  /// Heat from a to b: conductance [W/K] times their difference.
  void couple(int a, int b, double conductance);
  /// Heat from the node to a place of one temperature [K]; the link's number.
  int to_bath(int node, double conductance, double temperature);
  /// Heat set free in a node, negative for taken [W].
  void source(int node, double heat);

  [[nodiscard]] int size() const { return static_cast<int>(capacity_.size()); }
  [[nodiscard]] double capacity(int node) const { return capacity_[static_cast<std::size_t>(node)]; }
  /// Heat of a bath's link, out of the node [W].
  [[nodiscard]] double to_bath_heat(int link, const std::vector<double>& T) const;

  /// In which order the unknowns of a network are best taken: a third of a solution, and the same for every network
  /// whose nodes are joined alike. Kept from one to the next; finds by itself whether it still fits.
  class Order {
   public:
    Order();
    ~Order();
    Order(Order&&) noexcept;
    Order& operator=(Order&&) noexcept;

   private:
    friend class ThermalNetwork;
    struct Kept;
    std::unique_ptr<Kept> kept_;
  };

  /// Temperatures at which every node gives what it takes [K]: symmetric sparse factors, and one look at what rounding
  /// left. Error (fault): a part that no bath holds.
  [[nodiscard]] base::Result<std::vector<double>> steady() const;
  [[nodiscard]] base::Result<std::vector<double>> steady(Order& order) const;

  /// Sums over all sources and baths at some temperatures.
  [[nodiscard]] Balance balance(const std::vector<double>& T) const;

  /// Marches in time with equal implicit steps; one factorisation for all of them.
  class March {
   public:
    March(const ThermalNetwork& network, double step);
    ~March();
    March(March&&) noexcept;
    March& operator=(March&&) = delete;
    /// One step on [K].
    void step(std::vector<double>& T) const;

   private:
    struct Factors;
    std::unique_ptr<Factors> factors_;
  };

 private:
  struct Link {
    int a, b;
    double conductance;
  };
  struct Bath {
    int node;
    double conductance, temperature;
  };
  struct System;
  [[nodiscard]] System system(double per_step) const;

  std::vector<double> capacity_, source_;
  std::vector<Link> links_;
  std::vector<Bath> baths_;
};

}  // namespace portwright::heat
