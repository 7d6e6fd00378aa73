// Offenders on purpose: they prove that the rules can fail.
#pragma warning disable IDE0130 // the namespace is the point
namespace Lugbook.Restoration.Planted;

internal static class PlantedStage;

internal static class SideDoor;

internal static class PlantedHelper;
