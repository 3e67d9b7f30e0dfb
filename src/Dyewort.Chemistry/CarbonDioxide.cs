namespace Dyewort.Chemistry;

/// <summary>What happens to the carbon dioxide of a jar.</summary>
public enum CarbonDioxide
{
    /// <summary>Whatever would bubble out has left: dissolved CO2 is at most in balance with 1 atm of it. What a maker meets after the
    /// fizz.</summary>
    AfterFizzing = 0,

    /// <summary>Every bit is held in, as in a closed full bottle.</summary>
    Sealed,

    /// <summary>The jar stood open until in balance with air (420 ppm CO2): days to weeks.</summary>
    Open,
}
