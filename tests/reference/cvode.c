/* Times SUNDIALS CVODE on the reference cases at 1e-6: the pail's equations along time, with root
 * finding at the end of pot life. Prints `name=value` lines for both of its methods. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>

#define MOST 1000
#define R 8.31446261815324

struct pail {
    /* Two known temperatures, which may be one, and the energies below, between and above. */
    double coldest, k_coldest, warmest, k_warmest, cold, between, warm;
    double kappa, balance, end, rise, cooling, warming, material, air, life;
};

static double rate(const struct pail *p, double kelvin)
{
    if (kelvin > p->warmest)
        return p->k_warmest * exp(-p->warm / R * (1 / kelvin - 1 / p->warmest));
    return p->k_coldest * exp(-(kelvin > p->coldest ? p->between : p->cold) / R * (1 / kelvin - 1 / p->coldest));
}

static int slope(realtype t, N_Vector y, N_Vector dy, void *data)
{
    const struct pail *p = data;
    const realtype *x = N_VGetArrayPointer(y);
    realtype *d = N_VGetArrayPointer(dy);
    double k = rate(p, x[1]);
    double over = x[1] - p->air;

    (void)t;
    d[0] = k * (p->kappa + x[0]) * (1 - x[0]) * (p->balance - x[0]);
    d[1] = p->rise * d[0] - (over > 0 ? p->cooling : p->warming) * over;
    return 0;
}

static int used_up(realtype t, N_Vector y, realtype *g, void *data)
{
    (void)t;
    g[0] = N_VGetArrayPointer(y)[0] - ((const struct pail *)data)->end;
    return 0;
}

static double pot_life(const struct pail *p, int method, SUNContext context)
{
    N_Vector y = N_VNew_Serial(2, context);
    SUNMatrix matrix = NULL;
    SUNLinearSolver linear = NULL;
    SUNNonlinearSolver fixed = NULL;
    realtype t = 0;
    void *solver = CVodeCreate(method, context);

    N_VGetArrayPointer(y)[0] = 0;
    N_VGetArrayPointer(y)[1] = p->material;
    CVodeInit(solver, slope, 0, y);
    CVodeSStolerances(solver, 1e-6, 1e-8);
    CVodeSetUserData(solver, (void *)p);
    CVodeSetMaxNumSteps(solver, 1000000);
    CVodeRootInit(solver, 1, used_up);
    if (method == CV_BDF) {
        matrix = SUNDenseMatrix(2, 2, context);
        linear = SUNLinSol_Dense(y, matrix, context);
        CVodeSetLinearSolver(solver, linear, matrix);
    } else {
        fixed = SUNNonlinSol_FixedPoint(y, 0, context);
        CVodeSetNonlinearSolver(solver, fixed);
    }
    CVode(solver, 1e12, y, &t, CV_NORMAL);
    CVodeFree(&solver);
    if (matrix)
        SUNMatDestroy(matrix);
    if (linear)
        SUNLinSolFree(linear);
    if (fixed)
        SUNNonlinSolFree(fixed);
    N_VDestroy(y);
    return t;
}

static double now(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec + 1e-9 * t.tv_nsec;
}

static void time_method(const char *name, int method, const struct pail *pails, int n, SUNContext context)
{
    double least = 1e9, worst = 0;

    for (int round = 0; round < 20; round++) {
        double start = now(), spent;

        for (int i = 0; i < n; i++) {
            double off = fabs(pot_life(&pails[i], method, context) / pails[i].life - 1);

            if (off > worst)
                worst = off;
        }
        spent = now() - start;
        if (spent < least)
            least = spent;
    }
    printf("%s_pot_life_us=%.3f\n%s_pot_life_error=%.1e\n", name, least / n * 1e6, name, worst);
}

int main(int count, char **words)
{
    static struct pail pails[MOST];
    struct pail p;
    int n = 0;
    SUNContext context;
    FILE *file = count == 2 ? fopen(words[1], "r") : NULL;

    if (!file || SUNContext_Create(NULL, &context)) {
        fprintf(stderr, "usage: cvode CASES\n");
        return EXIT_FAILURE;
    }
    while (n < MOST
           && fscanf(file, "%lf %lf %lf %lf %lf %lf %lf %lf %lf %lf %lf %lf %lf %lf %lf %lf", &p.coldest, &p.k_coldest,
                     &p.warmest, &p.k_warmest, &p.cold, &p.between, &p.warm, &p.kappa, &p.balance, &p.end, &p.rise,
                     &p.cooling, &p.warming, &p.material, &p.air, &p.life) == 16)
        pails[n++] = p;
    fclose(file);
    time_method("bdf", CV_BDF, pails, n, context);
    time_method("adams", CV_ADAMS, pails, n, context);
    SUNContext_Free(&context);
    return n ? EXIT_SUCCESS : EXIT_FAILURE;
}
